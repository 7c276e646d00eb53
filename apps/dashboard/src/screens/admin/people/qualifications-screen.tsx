import { ROUTES } from '../../../api/contracts.ts'
import { Button } from '@mantine/core'
import { useQuery } from '@tanstack/react-query'
import { Plus } from 'lucide-react'
import { useState } from 'react'
import { accessQueries } from '../../../api/queries/access.ts'
import type { Qualification } from '../../../api/types.ts'
import { useAction } from '../../../api/use-action.ts'
import { useMay } from '../../../api/use-me.ts'
import { formatDate, todayIn } from '../../../lib/instants.ts'
import { useOneShop, zoneOf } from '../../../lib/shop-scope.ts'
import { useNow } from '../../../lib/use-now.ts'
import { Mark } from '../../../ui/answers/mark.tsx'
import { Page } from '../../../ui/page.tsx'
import { ReasonDialog } from '../../../ui/dialogs/reason-dialog.tsx'
import { Table, type Column } from '../../../ui/table.tsx'
import { Answered, Empty } from '../../../ui/waiting.tsx'
import { AdminNav } from '../admin-nav.tsx'
import { QualificationDialog } from './qualification-dialog.tsx'
import { byStanding, standingOf } from './qualification-standing.ts'

/** Who may make which class of joint, and until when: an owner's business alone. */
export function QualificationsScreen() {
  const mayManage = useMay()('manageChain', null)
  const [adding, setAdding] = useState(false)
  return (
    <Page
      title="Qualifications"
      lede="A qualification for a class covers the less severe ones. S4 requires none."
      actions={
        mayManage && (
          <Button leftSection={<Plus size={16} aria-hidden />} onClick={() => setAdding(true)}>
            Add qualification
          </Button>
        )
      }
    >
      <AdminNav />
      {mayManage ? (
        <QualificationList />
      ) : (
        <Empty title="Only an owner of every shop sees and keeps the qualifications." />
      )}
      {adding && <QualificationDialog onClose={() => setAdding(false)} />}
    </Page>
  )
}

function QualificationList() {
  const qualifications = useQuery(accessQueries.qualifications())
  const today = todayIn(zoneOf(useOneShop().shop), useNow(60_000))
  const [ending, setEnding] = useState<Qualification>()
  const columns: readonly Column<Qualification>[] = [
    { head: 'Who', cell: ({ personName }) => <strong>{personName}</strong> },
    { head: 'Class', cell: ({ safetyClass }) => safetyClass },
    { head: 'Evidence', cell: ({ evidence }) => evidence },
    { head: 'Issued', cell: ({ issuedOn }) => formatDate(issuedOn) },
    { head: 'Valid until', cell: ({ validUntil }) => formatDate(validUntil) },
    {
      head: 'Standing',
      cell: (qualification) => {
        const { tone, word } = standingOf(qualification, today)
        return <Mark tone={tone}>{word}</Mark>
      },
    },
    {
      head: 'Change',
      cell: (qualification) =>
        qualification.ended === null && (
          <Button
            size="xs"
            variant="default"
            aria-label={`End ${qualification.safetyClass} of ${qualification.personName}`}
            onClick={() => setEnding(qualification)}
          >
            End…
          </Button>
        ),
    },
  ]
  return (
    <>
      <Answered query={qualifications} what="qualifications">
        {({ items }) =>
          items.length === 0 ? (
            <Empty title="No qualification on record yet.">
              Joints of class S1 and S2 ask for one, or for a written reason.
            </Empty>
          ) : (
            <Table
              caption="Qualifications"
              columns={columns}
              rows={[...items].sort(byStanding(today))}
              rowKey={({ id }) => id}
            />
          )
        }
      </Answered>
      {ending !== undefined && <EndDialog qualification={ending} onClose={() => setEnding(undefined)} />}
    </>
  )
}

interface EndProps {
  readonly qualification: Qualification
  readonly onClose: () => void
}

function EndDialog({ qualification, onClose }: EndProps) {
  const end = useAction(ROUTES.endQualification, { topics: ['people'], onDone: onClose })
  return (
    <ReasonDialog
      opened
      onClose={onClose}
      title={`End ${qualification.safetyClass} of ${qualification.personName}`}
      reasonLabel="Why does it end before its day?"
      confirmLabel="End it"
      isDanger
      isPending={end.isPending}
      error={end.error}
      onConfirm={(reason) => end.mutate({ params: { qualificationId: qualification.id }, body: { reason } })}
    >
      <p style={{ margin: 0 }}>It stays in the list: bonds were made under it.</p>
    </ReasonDialog>
  )
}
