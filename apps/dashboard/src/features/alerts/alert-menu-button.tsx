import { ActionIcon, type ActionIconProps } from '@mantine/core'
import { Ellipsis } from 'lucide-react'
import type { MouseEventHandler, Ref } from 'react'
import type { Alert } from '../../api/types.ts'
import { t } from '../../lib/reader.ts'

interface Props extends ActionIconProps {
  readonly alert: Alert
  readonly ref?: Ref<HTMLButtonElement>
  readonly onClick?: MouseEventHandler
}

/** What the menu of an alert hangs on. */
export function AlertMenuButton({ alert, ...props }: Props) {
  return (
    <ActionIcon
      aria-haspopup="menu"
      {...props}
      variant="default"
      size={36}
      aria-label={t('features.moreAbout', { message: alert.message })}
    >
      <Ellipsis size={16} aria-hidden />
    </ActionIcon>
  )
}
