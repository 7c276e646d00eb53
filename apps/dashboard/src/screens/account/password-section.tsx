import { Button, Stack } from '@mantine/core'
import { useForm } from '@mantine/form'
import { useQueryClient } from '@tanstack/react-query'
import { ROUTES } from '../../api/contracts.ts'
import { accessQueries } from '../../api/queries/access.ts'
import { useAction } from '../../api/use-action.ts'
import { useMe } from '../../api/use-me.ts'
import { t } from '../../lib/reader.ts'
import { useFormReasons } from '../../lib/use-form-reasons.ts'
import { Section, Sheet } from '../../ui/page.tsx'
import { ProblemPanel } from '../../ui/problem-panel.tsx'
import { NO_PASSWORDS, PASSWORD_RULES, PasswordFields } from './password-fields.tsx'

export function PasswordSection() {
  const me = useMe()
  const client = useQueryClient()
  const form = useForm({ initialValues: NO_PASSWORDS, validate: PASSWORD_RULES })
  const change = useAction(ROUTES.changePassword, {
    topics: [],
    onDone: () => {
      form.reset()
      void client.invalidateQueries({ queryKey: accessQueries.sessions().queryKey })
    },
  })
  const others = useFormReasons(form, change.error)
  return (
    <Section title={t('account.password')}>
      <Sheet padded>
        <form
          onSubmit={form.onSubmit(({ present, password }) => change.mutate({ body: { present, password } }))}
        >
          <Stack gap="md" maw="28rem">
            <PasswordFields form={form} email={me.email ?? ''} />
            <ProblemPanel error={change.error} reasons={others} />
            <div>
              <Button type="submit" loading={change.isPending}>
                {t('account.changePassword')}
              </Button>
            </div>
            <output>{change.isSuccess && t('account.changed')}</output>
          </Stack>
        </form>
      </Sheet>
    </Section>
  )
}
