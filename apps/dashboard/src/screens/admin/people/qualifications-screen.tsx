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
import { t } from '../../../lib/reader.ts'

/** Who may make which class of joint, and until when: an owner's business alone. */
export function QualificationsScreen() {
  const mayManage = useMay()('manageChain', null)
  const [adding, setAdding] = useState(false)
  return (
    <Page
      title={t('admin.qualifications')}
      lede={t('admin.aQualificationForAClassCoversTheLess')}
      actions={
        mayManage && (
          <Button leftSection={<Plus size={16} aria-hidden />} onClick={() => setAdding(true)}>
            {t('admin.addQualification')}
          </Button>
        )
      }
    >
      <AdminNav />
      {mayManage ? <QualificationList /> : <Empty title={t('admin.onlyAnOwnerOfEveryShopSeesAndKeeps')} />}
      {adding && <QualificationDialog onClose={() => setAdding(false)} />}
    </Page>
  )
}

function QualificationList() {
  const qualifications = useQuery(accessQueries.qualifications())
  const today = todayIn(zoneOf(useOneShop().shop), useNow(60_000))
  const [ending, setEnding] = useState<Qualification>()
  const columns: readonly Column<Qualification>[] = [
    { head: 'admin.who', cell: ({ personName }) => <strong>{personName}</strong> },
    { head: 'admin.class', cell: ({ safetyClass }) => safetyClass },
    { head: 'admin.evidence', cell: ({ evidence }) => evidence },
    { head: 'admin.issued', cell: ({ issuedOn }) => formatDate(issuedOn) },
    { head: 'admin.validUntil', cell: ({ validUntil }) => formatDate(validUntil) },
    {
      head: 'admin.standing',
      cell: (qualification) => {
        const { tone, word } = standingOf(qualification, today)
        return <Mark tone={tone}>{word}</Mark>
      },
    },
    {
      head: 'admin.change2',
      cell: (qualification) =>
        qualification.ended === null && (
          <Button
            size="xs"
            variant="default"
            aria-label={t('admin.endOf', {
              safetyClass: qualification.safetyClass,
              personName: qualification.personName,
            })}
            onClick={() => setEnding(qualification)}
          >
            {t('admin.end')}
          </Button>
        ),
    },
  ]
  return (
    <>
      <Answered query={qualifications} what={t('admin.qualifications2')}>
        {({ items }) =>
          items.length === 0 ? (
            <Empty title={t('admin.noQualificationOnRecordYet')}>
              {t('admin.jointsOfClassS1AndS2AskForOneOrForA')}
            </Empty>
          ) : (
            <Table
              caption={t('admin.qualifications')}
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
      title={t('admin.endOf', {
        safetyClass: qualification.safetyClass,
        personName: qualification.personName,
      })}
      reasonLabel={t('admin.whyDoesItEndBeforeItsDay')}
      confirmLabel={t('admin.endIt')}
      isDanger
      isPending={end.isPending}
      error={end.error}
      onConfirm={(reason) => end.mutate({ params: { qualificationId: qualification.id }, body: { reason } })}
    >
      <p style={{ margin: 0 }}>{t('admin.itStaysInTheListBondsWereMadeUnderIt')}</p>
    </ReasonDialog>
  )
}
