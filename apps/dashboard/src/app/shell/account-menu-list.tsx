import { Menu } from '@mantine/core'
import { useMutation } from '@tanstack/react-query'
import { LogOut } from 'lucide-react'
import { call } from '../../api/client.ts'
import { ROUTES } from '../../api/contracts.ts'
import { rolesOf } from '../../api/permissions.ts'
import { useMe } from '../../api/use-me.ts'
import { AccountButton } from './account-button.tsx'
import { t } from '../../lib/reader.ts'

export function AccountMenuList() {
  const me = useMe()
  const signOut = useMutation({
    mutationFn: () => call(ROUTES.signOut, {}),
    // A fresh page: nothing of this person stays in memory, also when the session was gone already.
    onSettled: () => {
      window.location.assign('/')
    },
  })
  return (
    <Menu defaultOpened position="bottom-end" width={260}>
      <Menu.Target>
        <AccountButton />
      </Menu.Target>
      <Menu.Dropdown>
        <Menu.Label>
          {me.name} · {rolesOf(me)}
          <br />
          {me.email}
          <br />
          {me.organization.name}
        </Menu.Label>
        <Menu.Item leftSection={<LogOut size={16} aria-hidden />} onClick={() => signOut.mutate()}>
          {t('app.signOut')}
        </Menu.Item>
      </Menu.Dropdown>
    </Menu>
  )
}
