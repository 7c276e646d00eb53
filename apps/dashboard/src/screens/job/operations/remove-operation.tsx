import { ROUTES } from '../../../api/contracts.ts'
import type { Operation } from '../../../api/types.ts'
import { useAction } from '../../../api/use-action.ts'
import { AskOnceMore } from '../../../ui/dialogs/ask-once-more.tsx'
import { whatGoes } from './operation-words.ts'
import { t } from '../../../lib/reader.ts'

interface Props {
  readonly operation: Operation
  readonly chain: readonly Operation[]
  readonly onRemoved: () => void
}

export function RemoveOperation({ operation, chain, onRemoved }: Props) {
  const remove = useAction(ROUTES.removeOperation, { topics: ['repairs', 'plans'], onDone: onRemoved })
  return (
    <AskOnceMore
      label={t('job.remove')}
      of={operation.name}
      sentence={t('job.whatAPublishedPlanHasBookedForIt', { operation: whatGoes(operation, chain) })}
      yes={t('job.removeIt')}
      no={t('job.keepIt')}
      isPending={remove.isPending}
      error={remove.error}
      onYes={() => remove.mutate({ params: { operationId: operation.id } })}
    />
  )
}
