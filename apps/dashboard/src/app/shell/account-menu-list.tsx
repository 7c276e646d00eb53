import { Menu } from '@mantine/core'
import { useMutation } from '@tanstack/react-query'
import { useNavigate } from '@tanstack/react-router'
import { BellOff, BellRing, KeyRound, Languages, LogOut } from 'lucide-react'
import { useState } from 'react'
import { call } from '../../api/client.ts'
import { ROUTES } from '../../api/contracts.ts'
import { rolesOf } from '../../api/permissions.ts'
import { useMe } from '../../api/use-me.ts'
import { setCalls, useCallsAreOn } from '../../features/work/device-calls.ts'
import { lazily } from '../../ui/lazily.tsx'
import { AccountButton } from './account-button.tsx'

const PreferencesDialog = lazily(
  async () => (await withWords(import('./preferences-dialog.tsx'), 'preferences')).PreferencesDialog,
)
import { t, withWords } from '../../lib/reader.ts'

export function AccountMenuList() {
  const me = useMe()
  const navigate = useNavigate()
  const callsAreOn = useCallsAreOn()
  const [isChoosing, setChoosing] = useState(false)
  const signOut = useMutation({
    mutationFn: () => call(ROUTES.signOut, {}),
    // A fresh page: nothing of this person stays in memory, also when the session was gone already.
    onSettled: () => {
      window.location.assign('/')
    },
  })
  return (
    <>
      {isChoosing && <PreferencesDialog onClose={() => setChoosing(false)} />}
      {/* In the header, a landmark, and not at the end of the page. */}
      <Menu
        defaultOpened
        position="bottom-end"
        width={260}
        withinPortal={false}
        withInitialFocusPlaceholder={false}
      >
        <Menu.Target>
          <AccountButton />
        </Menu.Target>
        <Menu.Dropdown>
          {/* A menu may own nothing but items: what is only read is none. */}
          <Menu.Label role="presentation">
            {me.name} · {rolesOf(me)}
            <br />
            {me.email}
            <br />
            {me.organization.name}
          </Menu.Label>
          <Menu.Item
            py="sm"
            leftSection={<Languages size={16} aria-hidden />}
            onClick={() => setChoosing(true)}
          >
            {t('app.myLanguageAndUnits')}
          </Menu.Item>
          <Menu.Item
            py="sm"
            leftSection={<KeyRound size={16} aria-hidden />}
            onClick={() => void navigate({ to: '/account' })}
          >
            {t('app.passwordAndSignIns')}
          </Menu.Item>
          <Menu.Item
            leftSection={callsAreOn ? <BellRing size={16} aria-hidden /> : <BellOff size={16} aria-hidden />}
            py="sm"
            closeMenuOnClick={false}
            onClick={() => setCalls(!callsAreOn)}
          >
            {callsAreOn ? t('app.callsAreOn') : t('app.callsAreOff')}
          </Menu.Item>
          <Menu.Item py="sm" leftSection={<LogOut size={16} aria-hidden />} onClick={() => signOut.mutate()}>
            {t('app.signOut')}
          </Menu.Item>
        </Menu.Dropdown>
      </Menu>
    </>
  )
}
