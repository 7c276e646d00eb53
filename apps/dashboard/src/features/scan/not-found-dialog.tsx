import { Modal } from '@mantine/core'
import { ProblemPanel } from '../../ui/problem-panel.tsx'

interface Props {
  readonly error: Error
  readonly onClose: () => void
}

export function NotFoundDialog({ error, onClose }: Props) {
  return (
    <Modal opened onClose={onClose} title="Not found by that label">
      <ProblemPanel error={error} />
    </Modal>
  )
}
