import { Button, type ButtonProps } from '@mantine/core'
import { UserRound } from 'lucide-react'
import type { MouseEventHandler, Ref } from 'react'
import { useMe } from '../../api/use-me.ts'
import styles from './shell.module.css'

interface Props extends ButtonProps {
  readonly ref?: Ref<HTMLButtonElement>
  readonly onClick?: MouseEventHandler
}

/** What the account menu hangs on. */
export function AccountButton(props: Props) {
  const me = useMe()
  return (
    <Button
      aria-haspopup="menu"
      {...props}
      variant="default"
      className={styles['account'] ?? ''}
      leftSection={<UserRound size={18} aria-hidden />}
      px="sm"
    >
      <span className={styles['accountName']}>{me.name.split(' ')[0]}</span>
    </Button>
  )
}
