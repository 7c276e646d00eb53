import { ROUTES } from '@clampclock/contracts'
import { Button, Menu } from '@mantine/core'
import { useMutation } from '@tanstack/react-query'
import { LogOut, UserRound } from 'lucide-react'
import { call } from '../../api/client.ts'
import { rolesOf } from '../../api/permissions.ts'
import { useMe } from '../../api/use-me.ts'

/** Who I am, what I am here, and the way out. */
export function AccountMenu() {
  const me = useMe()
  const signOut = useMutation({
    mutationFn: () => call(ROUTES.signOut, {}),
    // A fresh page: nothing of this person stays in memory, also when the session was gone already.
    onSettled: () => {
      window.location.assign('/')
    },
  })
  return (
    <Menu position="bottom-end" width={260}>
      <Menu.Target>
        <Button variant="default" leftSection={<UserRound size={18} aria-hidden />} px="sm">
          <span>{me.name.split(' ')[0]}</span>
        </Button>
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
          Sign out
        </Menu.Item>
      </Menu.Dropdown>
    </Menu>
  )
}
