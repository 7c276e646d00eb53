import { ROUTES } from '../../api/contracts.ts'
import { Button, PasswordInput, Stack, TextInput } from '@mantine/core'
import { useQueryClient } from '@tanstack/react-query'
import { useState, type SubmitEvent } from 'react'
import { accessQueries } from '../../api/queries/access.ts'
import { useAction } from '../../api/use-action.ts'
import { setSessionOver } from '../../lib/session.ts'
import { ProblemPanel } from '../../ui/problem-panel.tsx'
import { DemoPeople } from './demo-people.tsx'
import { t } from '../../lib/reader.ts'

/** E-mail and password, or one of the demo people where the server has any. */
export function SignInForm() {
  const client = useQueryClient()
  const [email, setEmail] = useState('')
  const [password, setPassword] = useState('')
  const signIn = useAction(ROUTES.signIn, {
    topics: [],
    onDone: ({ me }) => {
      client.setQueryData(accessQueries.me().queryKey, me)
      setSessionOver(false)
      void client.invalidateQueries()
    },
  })
  const submit = (event: SubmitEvent) => {
    event.preventDefault()
    signIn.mutate({ body: { email, password } })
  }
  return (
    <>
      <form onSubmit={submit}>
        <Stack gap="md">
          <TextInput
            label={t('sign-in.eMail')}
            type="email"
            autoComplete="username"
            required
            value={email}
            onChange={(event) => setEmail(event.currentTarget.value)}
          />
          <PasswordInput
            label={t('sign-in.password')}
            autoComplete="current-password"
            required
            value={password}
            onChange={(event) => setPassword(event.currentTarget.value)}
          />
          <ProblemPanel error={signIn.error} />
          <Button type="submit" size="md" loading={signIn.isPending}>
            {t('sign-in.signIn')}
          </Button>
        </Stack>
      </form>
      <DemoPeople
        isBusy={signIn.isPending}
        onChoose={(person) => signIn.mutate({ body: { email: person.email, password: person.password } })}
      />
    </>
  )
}
