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
import { t } from '../../lib/reader.ts'

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
    <Modal opened onClose={onClose} title={t('job.procedureOf', { name: joint.name })}>
      <form onSubmit={form.onSubmit((body) => set.mutate({ params: { jointId: joint.id }, body }))}>
        <Stack gap="md">
          <TextInput label={t('job.document')} required data-autofocus {...form.getInputProps('document')} />
          <TextInput label={t('job.revision')} required {...form.getInputProps('revision')} />
          <TextInput label={t('job.lookedUpOn')} type="date" required {...form.getInputProps('lookedUpOn')} />
          <ProblemPanel error={set.error} reasons={others} />
          <Group justify="flex-end">
            <Button variant="default" onClick={onClose}>
              {t('job.back')}
            </Button>
            <Button type="submit" loading={set.isPending}>
              {t('job.record')}
            </Button>
          </Group>
        </Stack>
      </form>
    </Modal>
  )
}
