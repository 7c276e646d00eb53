import { ActionIcon } from '@mantine/core'
import { ArrowDown, ArrowUp } from 'lucide-react'
import { t } from '../lib/reader.ts'

interface Props {
  /** What is moved. */
  readonly name: string
  readonly mayMove: (by: -1 | 1) => boolean
  readonly onMove: (by: -1 | 1) => void
}

/** Up and down in a list; nothing for what can go neither way. */
export function MoveButtons({ name, mayMove, onMove }: Props) {
  if (!mayMove(-1) && !mayMove(1)) return null
  return ([-1, 1] as const).map((by) => (
    <ActionIcon
      key={by}
      data-move
      variant="default"
      size="input-sm"
      disabled={!mayMove(by)}
      aria-label={by < 0 ? t('ui.moveUp', { name }) : t('ui.moveDown', { name })}
      onClick={() => onMove(by)}
    >
      {by < 0 ? <ArrowUp size={16} aria-hidden /> : <ArrowDown size={16} aria-hidden />}
    </ActionIcon>
  ))
}
