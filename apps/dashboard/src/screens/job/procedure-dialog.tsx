import { Button, Group, Modal, Stack, TextInput } from '@mantine/core'
import { useForm } from '@mantine/form'
import { ROUTES } from '../../api/contracts.ts'
import type { Joint } from '../../api/types.ts'
import { useAction } from '../../api/use-action.ts'
import { todayIn } from '../../lib/instants.ts'
import { useShop, zoneOf } from '../../lib/shop-scope.ts'
import { useFormReasons } from '../../lib/use-form-reasons.ts'
import { useNow } from '../../lib/use-now.ts'
import { ProblemPanel } from '../../ui/problem-panel.tsx'

interface DialogProps {
  readonly joint: Joint
  readonly shopId: string
  readonly onClose: () => void
}

/** Document, revision, and the day on which it was looked up. */
export function ProcedureDialog({ joint, shopId, onClose }: DialogProps) {
  const shop = useShop(shopId)
  const nowMs = useNow(60_000)
  const form = useForm({
    initialValues: joint.procedure ?? {
      document: '',
      revision: '',
      lookedUpOn: todayIn(zoneOf(shop), nowMs),
    },
  })
  const set = useAction(ROUTES.setProcedure, { topics: ['repairs'], onDone: onClose })
  const others = useFormReasons(form, set.error)
  return (
    <Modal opened onClose={onClose} title={`Procedure of ${joint.name}`}>
      <form onSubmit={form.onSubmit((body) => set.mutate({ params: { jointId: joint.id }, body }))}>
        <Stack gap="md">
          <TextInput label="Document" required data-autofocus {...form.getInputProps('document')} />
          <TextInput label="Revision" required {...form.getInputProps('revision')} />
          <TextInput label="Looked up on" type="date" required {...form.getInputProps('lookedUpOn')} />
          <ProblemPanel error={set.error} reasons={others} />
          <Group justify="flex-end">
            <Button variant="default" onClick={onClose}>
              Back
            </Button>
            <Button type="submit" loading={set.isPending}>
              Record
            </Button>
          </Group>
        </Stack>
      </form>
    </Modal>
  )
}
