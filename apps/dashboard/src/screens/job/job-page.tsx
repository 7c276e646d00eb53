import { Button } from '@mantine/core'
import { Link } from '@tanstack/react-router'
import { Pencil, Plus } from 'lucide-react'
import { formatTemperature } from '../../lib/measures.ts'
import type { RepairOrderDetail } from '../../api/types.ts'
import { useMay } from '../../api/use-me.ts'
import { bondClock } from '../../features/bonds/bond-clock.ts'
import { TraceLinks } from '../../features/stock/trace-links.tsx'
import { Cautions } from '../../features/bonds/cautions.tsx'
import { useShop, zoneOf } from '../../lib/shop-scope.ts'
import { useServerNow } from '../../lib/use-now.ts'
import { Facts } from '../../ui/facts.tsx'
import { Page, Section } from '../../ui/page.tsx'
import { Fold } from '../../ui/fold.tsx'
import { Empty } from '../../ui/waiting.tsx'
import { When } from '../../ui/when.tsx'
import { JointCard } from './joint-card.tsx'
import styles from './job.module.css'
import { MoveVehicle } from './move-vehicle.tsx'
import { Operations } from './operations/operations.tsx'
import { lazily } from '../../ui/lazily.tsx'
import { reader, t, withWords } from '../../lib/reader.ts'

const OvenCheck = lazily(async () => (await import('./oven-check.tsx')).OvenCheck)

const AfterRelease = lazily(
  async () =>
    (await withWords(import('../../features/bonds/after/after-parts.tsx'), 'start-bond')).AfterReleaseOfJob,
)

const WhatWouldHelp = lazily(async () => (await import('./help/what-would-help.tsx')).WhatWouldHelp)

const Attachments = lazily(
  async () =>
    (await withWords(import('../../features/attachments/attachments.tsx'), 'attachments')).Attachments,
  // As high as it is with nothing in it, so that what stands below does not jump.
  () => <div style={{ minHeight: '18rem' }} />,
)

export function JobPage({ job }: { readonly job: RepairOrderDetail }) {
  const may = useMay()
  const shop = useShop(job.shopId)
  const now = useServerNow()
  const clocks = job.joints.flatMap(({ bonds }) => bonds.map((bond) => bondClock(bond, now)))
  const curing = job.joints
    .flatMap(({ bonds }) => bonds)
    .filter((bond) => ['open', 'late', 'curing'].includes(bondClock(bond, now).phase))
  const params = { repairOrderId: job.id }
  const mayPlan = may('planWork', job.shopId)
  return (
    <Page
      title={job.vehicle}
      lede={`${job.number}${job.plate === null ? '' : ` · ${job.plate}`} · ${job.bay?.name ?? t('job.inNoBay')} · ${shop?.name ?? ''}`}
      narrow
      actions={
        mayPlan && (
          <>
            <Button
              variant="default"
              leftSection={<Pencil size={16} aria-hidden />}
              renderRoot={(props) => <Link {...props} to="/jobs/$repairOrderId/edit" params={params} />}
            >
              {t('job.edit')}
            </Button>
            {job.state === 'open' && (
              <Button
                variant="default"
                leftSection={<Plus size={16} aria-hidden />}
                renderRoot={(props) => (
                  <Link {...props} to="/jobs/$repairOrderId/joints/new" params={params} />
                )}
              >
                {t('job.addJoint')}
              </Button>
            )}
          </>
        )
      }
    >
      <MoveVehicle job={job} clocks={clocks} now={now} zone={zoneOf(shop)} />
      <div className={styles['facts']}>
        <Facts
          facts={[
            [
              t('job.promised'),
              job.promisedAt === null ? null : <When key="p" at={job.promisedAt} zone={zoneOf(shop)} />,
            ],
            [
              t('job.ovenLimitOfTheVehicle'),
              job.ovenLimitC === null ? null : formatTemperature(job.ovenLimitC, reader().temperature, 0),
            ],
            [t('job.note'), job.note === '' ? null : job.note],
            [t('job.state'), job.state === 'done' ? t('job.done') : null],
          ]}
        />
      </div>
      {job.joints.length === 0 && (
        <Empty title={t('job.noJointsYet')}>
          {mayPlan ? t('job.addEachJointToBeBondedWithThe') : t('job.theSchedulerAddsThem')}
        </Empty>
      )}
      {curing.length > 0 && (
        <Fold summary={t('job.itMustBeReadySoonerSeeWhatWouldHelp')} className={styles['aside']}>
          <WhatWouldHelp bonds={curing} shopId={job.shopId} />
        </Fold>
      )}
      {job.joints.map((joint) => (
        <JointCard key={joint.id} joint={joint} job={job} />
      ))}
      <AfterRelease joints={job.joints} />
      <Operations job={job} />
      {job.joints.length > 0 && job.state === 'open' && (
        <Fold summary={t('job.mayItBeBakedCheckAProgramOfTheOven')} className={styles['aside']}>
          <OvenCheck job={job} />
        </Fold>
      )}
      {/* Below what is pressed: it comes after the page, and would push that away under the finger. */}
      <Section title={t('job.photosAndNotes')}>
        <Attachments repairOrderId={job.id} shopId={job.shopId} joints={job.joints} />
      </Section>
      {job.joints.some(({ bonds }) => bonds.length > 0) && (
        <Section title={t('job.adhesivesInTheVehicle')}>
          <TraceLinks repairOrderId={job.id} />
        </Section>
      )}
      <Cautions about={['cure', 'joint']} />
    </Page>
  )
}
