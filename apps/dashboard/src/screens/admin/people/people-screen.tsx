import { Button } from '@mantine/core'
import { useQuery } from '@tanstack/react-query'
import { UserPlus } from 'lucide-react'
import { useState } from 'react'
import { mayGrant, roleWord } from '../../../api/permissions.ts'
import { accessQueries } from '../../../api/queries/access.ts'
import type { Person } from '../../../api/types.ts'
import { useMay, useMe, useShops } from '../../../api/use-me.ts'
import { Mark } from '../../../ui/answers/mark.tsx'
import { Page } from '../../../ui/page.tsx'
import { Table, type Column } from '../../../ui/table.tsx'
import { Answered } from '../../../ui/waiting.tsx'
import { AdminNav } from '../admin-nav.tsx'
import { PersonDialog } from './person-dialog.tsx'
import { t } from '../../../lib/reader.ts'

export function PeopleScreen() {
  const me = useMe()
  const may = useMay()
  const shops = useShops()
  const people = useQuery(accessQueries.people())
  const [editing, setEditing] = useState<Person | 'new'>()
  const mayManage = may('manageChain')
  const nameOf = (shopId: string | null) =>
    shopId === null
      ? t('admin.everyShop2')
      : (shops.find(({ id }) => id === shopId)?.name ?? t('admin.anotherShop2'))
  const columns: readonly Column<Person>[] = [
    { head: 'admin.name', cell: ({ name }) => <strong>{name}</strong> },
    { head: 'admin.eMail', cell: ({ email }) => email },
    {
      head: 'admin.roles',
      cell: ({ memberships }) =>
        memberships.map(({ role, shopId }) => `${roleWord(role)}, ${nameOf(shopId)}`).join('; '),
    },
    {
      head: 'admin.state',
      cell: ({ disabledAt }) =>
        disabledAt === null ? (
          <Mark tone="ready">{t('admin.maySignIn')}</Mark>
        ) : (
          <Mark tone="quiet">{t('admin.disabled')}</Mark>
        ),
    },
    ...(mayManage
      ? [
          {
            head: 'admin.change2' as const,
            cell: (person: Person) =>
              person.memberships.some((each) => mayGrant(me, each)) && (
                <Button
                  size="xs"
                  variant="default"
                  onClick={() => setEditing(person)}
                  aria-label={t('admin.change', { name: person.name })}
                >
                  {t('admin.change2')}
                </Button>
              ),
          },
        ]
      : []),
  ]
  return (
    <Page
      title={t('admin.people')}
      actions={
        mayManage && (
          <Button leftSection={<UserPlus size={16} aria-hidden />} onClick={() => setEditing('new')}>
            {t('admin.addPerson')}
          </Button>
        )
      }
    >
      <AdminNav />
      <Answered query={people} what={t('admin.people2')}>
        {({ items }) => (
          <Table caption={t('admin.people')} columns={columns} rows={items} rowKey={({ id }) => id} />
        )}
      </Answered>
      {editing !== undefined && (
        <PersonDialog
          person={editing === 'new' ? undefined : editing}
          shops={shops}
          onClose={() => setEditing(undefined)}
        />
      )}
    </Page>
  )
}
