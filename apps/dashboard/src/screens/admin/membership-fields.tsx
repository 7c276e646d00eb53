import { ActionIcon, Button, NativeSelect, Stack } from '@mantine/core'
import type { UseFormReturnType } from '@mantine/form'
import { Plus, X } from 'lucide-react'
import { roleWord, ROLES } from '../../api/permissions.ts'
import type { Shop } from '../../api/types.ts'
import styles from './admin.module.css'
import type { PersonValues } from './person-values.ts'

interface Props {
  readonly form: UseFormReturnType<PersonValues>
  readonly shops: readonly Shop[]
}

/** One role per shop, or in every shop. */
export function MembershipFields({ form, shops }: Props) {
  const roles = form.values.memberships
  return (
    <Stack gap="sm">
      {roles.map((_, index) => (
        // oxlint-disable-next-line react/no-array-index-key -- roles have no identity but their place in the list
        <div key={index} className={styles['role']}>
          <NativeSelect
            label="Role"
            data={ROLES.map((role) => ({ value: role, label: roleWord(role) }))}
            {...form.getInputProps(`memberships.${index}.role`)}
          />
          <NativeSelect
            label="In"
            data={[
              { value: '', label: 'Every shop' },
              ...shops.map(({ id, name }) => ({ value: id, label: name })),
            ]}
            {...form.getInputProps(`memberships.${index}.shopId`)}
          />
          <ActionIcon
            variant="default"
            size="input-sm"
            aria-label={`Remove role ${index + 1}`}
            disabled={roles.length === 1}
            onClick={() => form.removeListItem('memberships', index)}
          >
            <X size={16} aria-hidden />
          </ActionIcon>
        </div>
      ))}
      <div>
        <Button
          variant="default"
          leftSection={<Plus size={16} aria-hidden />}
          onClick={() => form.insertListItem('memberships', { shopId: shops[0]?.id ?? '', role: 'viewer' })}
        >
          Another role
        </Button>
      </div>
    </Stack>
  )
}
