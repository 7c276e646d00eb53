import { ROUTES } from '@clampclock/contracts'
import { Button, Group, Modal, Stack, TextInput } from '@mantine/core'
import { useForm } from '@mantine/form'
import { useDisclosure } from '@mantine/hooks'
import { FileText } from 'lucide-react'
import type { Joint } from '../../api/types.ts'
import { useAction } from '../../api/use-action.ts'
import { useMay } from '../../api/use-me.ts'
import { todayIn } from '../../lib/instants.ts'
import { useShop, zoneOf } from '../../lib/shop-scope.ts'
import { useNow } from '../../lib/use-now.ts'
import { useFormReasons } from '../../lib/use-form-reasons.ts'
import { Mark } from '../../ui/mark.tsx'
import { ProblemPanel } from '../../ui/problem-panel.tsx'
import styles from './job.module.css'

interface Props {
  readonly joint: Joint
  readonly shopId: string
}

/** Which document of the vehicle maker the joint is made by. */
export function ProcedureButton({ joint, shopId }: Props) {
  const may = useMay()
  const [opened, { open, close }] = useDisclosure()
  // Without one no bond can be started.
  const isAsked = joint.procedure === null
  if (!may('makeBonds', shopId)) return isAsked ? <Mark tone="warning">No procedure recorded</Mark> : null
  return (
    <div className={styles['buttons']}>
      {isAsked && <Mark tone="warning">No procedure recorded: no bond can be started</Mark>}
      <Button variant="default" leftSection={<FileText size={16} aria-hidden />} onClick={open}>
        {isAsked ? 'Record the procedure' : 'Change the procedure'}
      </Button>
      {opened && <ProcedureDialog joint={joint} shopId={shopId} onClose={close} />}
    </div>
  )
}

interface DialogProps {
  readonly joint: Joint
  readonly shopId: string
  readonly onClose: () => void
}

function ProcedureDialog({ joint, shopId, onClose }: DialogProps) {
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
