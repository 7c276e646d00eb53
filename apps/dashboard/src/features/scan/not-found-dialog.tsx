import { Modal } from '@mantine/core'
import { ProblemPanel } from '../../ui/problem-panel.tsx'
import { t } from '../../lib/reader.ts'

interface Props {
  readonly error: Error
  readonly onClose: () => void
}

export function NotFoundDialog({ error, onClose }: Props) {
  return (
    <Modal opened onClose={onClose} title={t('features.notFoundByThatLabel')}>
      <ProblemPanel error={error} />
    </Modal>
  )
}
