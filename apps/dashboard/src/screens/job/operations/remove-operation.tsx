import { ROUTES } from '../../../api/contracts.ts'
import type { Operation } from '../../../api/types.ts'
import { useAction } from '../../../api/use-action.ts'
import { AskOnceMore } from '../../../ui/dialogs/ask-once-more.tsx'
import { whatGoes } from './operation-words.ts'

interface Props {
  readonly operation: Operation
  readonly chain: readonly Operation[]
  readonly onRemoved: () => void
}

export function RemoveOperation({ operation, chain, onRemoved }: Props) {
  const remove = useAction(ROUTES.removeOperation, { topics: ['repairs', 'plans'], onDone: onRemoved })
  return (
    <AskOnceMore
      label="Remove"
      of={operation.name}
      sentence={`${whatGoes(operation, chain)} What a published plan has booked for it stays booked until you plan again.`}
      yes="Remove it"
      no="Keep it"
      isPending={remove.isPending}
      error={remove.error}
      onYes={() => remove.mutate({ params: { operationId: operation.id } })}
    />
  )
}
