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

export function PeopleScreen() {
  const me = useMe()
  const may = useMay()
  const shops = useShops()
  const people = useQuery(accessQueries.people())
  const [editing, setEditing] = useState<Person | 'new'>()
  const mayManage = may('manageChain')
  const nameOf = (shopId: string | null) =>
    shopId === null ? 'every shop' : (shops.find(({ id }) => id === shopId)?.name ?? 'another shop')
  const columns: readonly Column<Person>[] = [
    { head: 'Name', cell: ({ name }) => <strong>{name}</strong> },
    { head: 'E-mail', cell: ({ email }) => email },
    {
      head: 'Roles',
      cell: ({ memberships }) =>
        memberships.map(({ role, shopId }) => `${roleWord(role)}, ${nameOf(shopId)}`).join('; '),
    },
    {
      head: 'State',
      cell: ({ disabledAt }) =>
        disabledAt === null ? <Mark tone="ready">May sign in</Mark> : <Mark tone="quiet">Disabled</Mark>,
    },
    ...(mayManage
      ? [
          {
            head: 'Change',
            cell: (person: Person) =>
              person.memberships.some((each) => mayGrant(me, each)) && (
                <Button
                  size="xs"
                  variant="default"
                  onClick={() => setEditing(person)}
                  aria-label={`Change ${person.name}`}
                >
                  Change
                </Button>
              ),
          },
        ]
      : []),
  ]
  return (
    <Page
      title="People"
      actions={
        mayManage && (
          <Button leftSection={<UserPlus size={16} aria-hidden />} onClick={() => setEditing('new')}>
            Add person
          </Button>
        )
      }
    >
      <AdminNav />
      <Answered query={people} what="people">
        {({ items }) => <Table caption="People" columns={columns} rows={items} rowKey={({ id }) => id} />}
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
