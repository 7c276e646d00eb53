import { ROUTES } from '../../api/contracts.ts'
import { Button, PasswordInput, Stack, TextInput } from '@mantine/core'
import { useForm } from '@mantine/form'
import { useQueryClient } from '@tanstack/react-query'
import { useNavigate, useSearch } from '@tanstack/react-router'
import { useEffect } from 'react'
import { accessQueries } from '../../api/queries/access.ts'
import { useAction } from '../../api/use-action.ts'
import { useFormReasons } from '../../lib/use-form-reasons.ts'
import { ProblemPanel } from '../../ui/problem-panel.tsx'
import styles from '../../ui/front-page.module.css'

/** The first owner of an empty installation, with the code that the server printed at its start. */
export function SetupScreen() {
  const { code } = useSearch({ from: '/setup' })
  const navigate = useNavigate()
  const client = useQueryClient()
  const form = useForm({
    initialValues: { setupCode: code ?? '', organizationName: '', name: '', email: '', password: '' },
  })
  const setUp = useAction(ROUTES.setUp, {
    topics: [],
    onDone: (me) => {
      client.setQueryData(accessQueries.me().queryKey, me)
      void client.invalidateQueries()
      void navigate({ to: '/admin/shops' })
    },
  })
  const reasons = useFormReasons(form, setUp.error)
  useEffect(() => {
    document.title = 'Set-up · Clampclock'
  }, [])
  return (
    <main className={styles['page']}>
      <div className={styles['panel']}>
        <h1>Set up Clampclock</h1>
        <p>Create your chain and its first owner. Shops, bays and people come next.</p>
        <form onSubmit={form.onSubmit((body) => setUp.mutate({ body }))}>
          <Stack gap="md">
            <TextInput
              label="Set-up code"
              description="The server printed it at its start."
              required
              {...form.getInputProps('setupCode')}
            />
            <TextInput label="Name of the chain" required {...form.getInputProps('organizationName')} />
            <TextInput label="Your name" autoComplete="name" required {...form.getInputProps('name')} />
            <TextInput
              label="Your e-mail"
              type="email"
              autoComplete="username"
              required
              {...form.getInputProps('email')}
            />
            <PasswordInput
              label="Password"
              description="At least 12 characters. A sentence is good."
              autoComplete="new-password"
              required
              minLength={12}
              {...form.getInputProps('password')}
            />
            <ProblemPanel error={setUp.error} reasons={reasons} />
            <Button type="submit" size="md" loading={setUp.isPending}>
              Create chain and owner
            </Button>
          </Stack>
        </form>
      </div>
    </main>
  )
}
