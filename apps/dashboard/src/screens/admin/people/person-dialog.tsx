import { ROUTES } from '../../../api/contracts.ts'
import { Fieldset, PasswordInput, Switch, TextInput } from '@mantine/core'
import { useForm } from '@mantine/form'
import { mayGrant } from '../../../api/permissions.ts'
import type { Person, Shop } from '../../../api/types.ts'
import { useAction } from '../../../api/use-action.ts'
import { useMay, useMe } from '../../../api/use-me.ts'
import { useFormReasons } from '../../../lib/use-form-reasons.ts'
import { FormDialog } from '../../../ui/dialogs/form-dialog.tsx'
import { MembershipFields } from './membership-fields.tsx'
import type { PersonValues } from './person-values.ts'
import { t } from '../../../lib/reader.ts'

interface Props {
  /** Left out for a new one. */
  readonly person: Person | undefined
  readonly shops: readonly Shop[]
  readonly onClose: () => void
}

export function PersonDialog({ person, shops, onClose }: Props) {
  const me = useMe()
  const may = useMay()
  const mine = shops.filter(({ id }) => may('manageChain', id))
  // Who the person is, and whether he may sign in, is for who has all that he has: of others the roles here only.
  const isMine =
    person === undefined || person.id === me.id || person.memberships.every((each) => mayGrant(me, each))
  const form = useForm<PersonValues>({
    initialValues: {
      name: person?.name ?? '',
      email: person?.email ?? '',
      password: '',
      mustChangePassword: true,
      disabled: (person?.disabledAt ?? null) !== null,
      memberships: person?.memberships.map(({ shopId, role }) => ({ shopId: shopId ?? '', role })) ?? [
        { shopId: mine[0]?.id ?? '', role: 'technician' },
      ],
    },
  })
  const options = { topics: ['people'] as const, onDone: onClose }
  const add = useAction(ROUTES.addPerson, options)
  const edit = useAction(ROUTES.editPerson, options)
  const error = add.error ?? edit.error
  const others = useFormReasons(form, error)
  const submit = form.onSubmit(
    ({ name, email, password, mustChangePassword, disabled, memberships: roles }) => {
      const memberships = roles.map(({ shopId, role }) => ({ shopId: shopId === '' ? null : shopId, role }))
      if (person === undefined) {
        add.mutate({ body: { name, email, password, mustChangePassword, memberships } })
        return
      }
      const newPassword = password === '' ? {} : { password }
      edit.mutate({ params: { personId: person.id }, body: { name, memberships, disabled, ...newPassword } })
    },
  )
  return (
    <FormDialog
      title={person === undefined ? t('admin.addPerson') : t('admin.change', { name: person.name })}
      onClose={onClose}
      onSubmit={submit}
      submitLabel={person === undefined ? t('admin.add') : t('admin.save')}
      isPending={add.isPending || edit.isPending}
      error={error}
      reasons={others}
    >
      <TextInput
        label={t('admin.name')}
        required
        data-autofocus
        disabled={!isMine}
        {...form.getInputProps('name')}
      />
      {person === undefined && (
        <TextInput label={t('admin.eMail')} type="email" required {...form.getInputProps('email')} />
      )}
      {/* One's own is changed where the present one is asked for. */}
      {person?.id !== me.id && (
        <PasswordInput
          label={person === undefined ? t('admin.firstPassword') : t('admin.newPassword')}
          description={passwordHint(person === undefined, isMine)}
          disabled={!isMine}
          autoComplete="new-password"
          required={person === undefined}
          {...form.getInputProps('password')}
        />
      )}
      {person === undefined && (
        <Switch
          label={t('admin.mustChoose')}
          {...form.getInputProps('mustChangePassword', { type: 'checkbox' })}
        />
      )}
      <Fieldset legend={t('admin.roles')}>
        <MembershipFields form={form} shops={shops} />
      </Fieldset>
      {person !== undefined && (
        <Switch
          label={t('admin.disabledMayNotSignIn')}
          disabled={!isMine}
          {...form.getInputProps('disabled', { type: 'checkbox' })}
        />
      )}
    </FormDialog>
  )
}

function passwordHint(isNew: boolean, isMine: boolean): string {
  if (isNew) return t('admin.atLeast12Characters')
  return isMine ? t('admin.mustChooseNext') : t('admin.worksInAnotherShopTooAnOwnerOfEvery')
}
