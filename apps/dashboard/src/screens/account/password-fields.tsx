import { PasswordInput } from '@mantine/core'
import type { UseFormReturnType } from '@mantine/form'
import { t } from '../../lib/reader.ts'

export interface PasswordValues {
  present: string
  password: string
  again: string
}

export const NO_PASSWORDS: PasswordValues = { present: '', password: '', again: '' }

/** Typed twice: a slip in a field that shows nothing would shut its owner out. */
export const PASSWORD_RULES = {
  again: (again: string, { password }: PasswordValues) =>
    again === password ? null : t('account.notTheSame'),
}

interface Props {
  readonly form: UseFormReturnType<PasswordValues>
  readonly email: string
}

export function PasswordFields({ form, email }: Props) {
  return (
    <>
      {/* What keeps passwords must be told whose these are. */}
      <input type="text" autoComplete="username" value={email} readOnly hidden />
      <PasswordInput
        label={t('account.presentPassword')}
        autoComplete="current-password"
        required
        {...form.getInputProps('present')}
      />
      <PasswordInput
        label={t('account.newPassword')}
        description={t('account.atLeast12')}
        autoComplete="new-password"
        required
        {...form.getInputProps('password')}
      />
      <PasswordInput
        label={t('account.newPasswordAgain')}
        autoComplete="new-password"
        required
        {...form.getInputProps('again')}
      />
    </>
  )
}
