import { useState } from 'react'
import { lazily } from '../../ui/lazily.tsx'
import { AccountButton } from './account-button.tsx'

const AccountMenuList = lazily(
  async () => (await import('./account-menu-list.tsx')).AccountMenuList,
  AccountButton,
)

/** Who I am, what I am here, and the way out. The menu itself comes with the first press. */
export function AccountMenu() {
  const [isPressed, setPressed] = useState(false)
  return isPressed ? <AccountMenuList /> : <AccountButton onClick={() => setPressed(true)} />
}
