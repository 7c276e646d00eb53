import { LanguageSwitch } from '../../ui/language-switch.tsx'
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
import { t } from '../../lib/reader.ts'

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
    document.title = t('setup.setUpClampclock')
  }, [])
  return (
    <main className={styles['page']}>
      <div className={styles['panel']}>
        <h1>{t('setup.setUpClampclock2')}</h1>
        <p>{t('setup.createYourChainAndItsFirstOwnerShops')}</p>
        <form onSubmit={form.onSubmit((body) => setUp.mutate({ body }))}>
          <Stack gap="md">
            <TextInput
              label={t('setup.setUpCode')}
              description={t('setup.theServerPrintedItAtItsStart')}
              required
              {...form.getInputProps('setupCode')}
            />
            <TextInput
              label={t('setup.nameOfTheChain')}
              required
              {...form.getInputProps('organizationName')}
            />
            <TextInput
              label={t('setup.yourName')}
              autoComplete="name"
              required
              {...form.getInputProps('name')}
            />
            <TextInput
              label={t('setup.yourEMail')}
              type="email"
              autoComplete="username"
              required
              {...form.getInputProps('email')}
            />
            <PasswordInput
              label={t('setup.password')}
              description={t('setup.atLeast12CharactersASentenceIsGood')}
              autoComplete="new-password"
              required
              minLength={12}
              {...form.getInputProps('password')}
            />
            <ProblemPanel error={setUp.error} reasons={reasons} />
            <Button type="submit" size="md" loading={setUp.isPending}>
              {t('setup.createChainAndOwner')}
            </Button>
          </Stack>
        </form>
        <LanguageSwitch />
      </div>
    </main>
  )
}
