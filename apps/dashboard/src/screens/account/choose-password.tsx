import { Button, Stack } from '@mantine/core'
import { useForm } from '@mantine/form'
import { useQueryClient } from '@tanstack/react-query'
import { useEffect } from 'react'
import { ROUTES } from '../../api/contracts.ts'
import { useAction } from '../../api/use-action.ts'
import { t } from '../../lib/reader.ts'
import { useFormReasons } from '../../lib/use-form-reasons.ts'
import styles from '../../ui/front-page.module.css'
import { ProblemPanel } from '../../ui/problem-panel.tsx'
import { NO_PASSWORDS, PASSWORD_RULES, PasswordFields } from './password-fields.tsx'

/** Who signed in with a password that somebody else set: nothing else is open. */
export default function ChoosePassword({ email }: { readonly email: string }) {
  const client = useQueryClient()
  const form = useForm({ initialValues: NO_PASSWORDS, validate: PASSWORD_RULES })
  const change = useAction(ROUTES.changePassword, {
    topics: ['people'],
    // Whatever was asked for before was refused.
    onDone: () => void client.resetQueries(),
  })
  const others = useFormReasons(form, change.error)
  useEffect(() => {
    document.title = `${t('account.chooseTitle')} · Clampclock`
  }, [])
  return (
    <main className={styles['page']}>
      <div className={styles['panel']}>
        <h1>{t('account.chooseTitle')}</h1>
        <p>{t('account.chooseLede')}</p>
        <form
          onSubmit={form.onSubmit(({ present, password }) => change.mutate({ body: { present, password } }))}
        >
          <Stack gap="md">
            <PasswordFields form={form} email={email} />
            <ProblemPanel error={change.error} reasons={others} />
            <Button type="submit" size="md" loading={change.isPending}>
              {t('account.choose')}
            </Button>
          </Stack>
        </form>
      </div>
    </main>
  )
}
