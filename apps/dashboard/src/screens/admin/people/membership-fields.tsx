import { ActionIcon, Button, NativeSelect, Stack } from '@mantine/core'
import type { UseFormReturnType } from '@mantine/form'
import { Plus, X } from 'lucide-react'
import { roleWord, ROLES } from '../../../api/permissions.ts'
import type { Shop } from '../../../api/types.ts'
import { useMay } from '../../../api/use-me.ts'
import styles from '../admin.module.css'
import type { PersonValues } from './person-values.ts'
import { t } from '../../../lib/reader.ts'

interface Props {
  readonly form: UseFormReturnType<PersonValues>
  readonly shops: readonly Shop[]
}

/** One role per shop, or in every shop. */
export function MembershipFields({ form, shops }: Props) {
  const may = useMay()
  const roles = form.values.memberships
  const mine = shops.filter(({ id }) => may('manageChain', id))
  /** What may be given, and what is held already. */
  const placesFor = (held: string) => [
    ...(may('manageChain', null) || held === '' ? [{ value: '', label: t('admin.everyShop') }] : []),
    ...shops
      .filter((shop) => mine.includes(shop) || shop.id === held)
      .map(({ id, name }) => ({ value: id, label: name })),
    ...(held === '' || shops.some(({ id }) => id === held)
      ? []
      : [{ value: held, label: t('admin.anotherShop') }]),
  ]
  const isMine = (shopId: string) => may('manageChain', shopId === '' ? null : shopId)
  return (
    <Stack gap="sm">
      {roles.map(({ shopId }, index) => (
        // oxlint-disable-next-line react/no-array-index-key -- roles have no identity but their place in the list
        <div key={index} className={styles['role']}>
          <NativeSelect
            label={t('admin.role')}
            disabled={!isMine(shopId)}
            data={ROLES.map((role) => ({ value: role, label: roleWord(role) }))}
            {...form.getInputProps(`memberships.${index}.role`)}
          />
          <NativeSelect
            label={t('admin.in')}
            data={placesFor(shopId)}
            disabled={!isMine(shopId)}
            {...form.getInputProps(`memberships.${index}.shopId`)}
          />
          <ActionIcon
            variant="default"
            size="input-sm"
            aria-label={t('admin.removeRole', { index: index + 1 })}
            disabled={roles.length === 1 || !isMine(shopId)}
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
          onClick={() => form.insertListItem('memberships', { shopId: mine[0]?.id ?? '', role: 'viewer' })}
        >
          {t('admin.anotherRole')}
        </Button>
      </div>
    </Stack>
  )
}
