import type { ReadyInstant } from '@clampclock/cure'
import { Link } from '@tanstack/react-router'
import { formatTemperature } from '../../lib/measures.ts'
import type { Bond } from '../../api/types.ts'
import { amountText } from '../../features/bonds/amount-text.ts'
import type { BondClock } from '../../features/bonds/bond-clock.ts'
import type { Milestone } from '../../features/bonds/estimate.ts'
import { QualityMark } from '../../features/readings/quality-mark.tsx'
import { formatInstant } from '../../lib/instants.ts'
import { useShop, zoneOf } from '../../lib/shop-scope.ts'
import { BASIS, NEVER, READING_SOURCE } from '../../lib/words.ts'
import { Facts } from '../../ui/facts.tsx'
import { Table } from '../../ui/table.tsx'
import styles from './job.module.css'
import { Measurements } from './readings/measurements.tsx'
import { reader, t } from '../../lib/reader.ts'

interface Props {
  readonly bond: Bond
  readonly clock: BondClock
}

/** How the times were worked out: three estimates, their basis, every reading, and what went into the joint. */
export function BondDetails({ bond, clock }: Props) {
  const shop = useShop(bond.shopId)
  const zone = zoneOf(shop)
  const at = (instant: ReadyInstant) =>
    instant.kind === 'at' ? formatInstant(new Date(instant.atMs).toISOString(), zone) : NEVER[instant.reason]
  const { workTime, handlingStrength, fullCure } = clock.estimate
  const rows: readonly (readonly [string, Milestone])[] = [
    [t('job.workTimeEnds'), workTime],
    [t('job.handlingStrength'), handlingStrength],
    [t('job.fullCure'), fullCure],
  ]
  const by = (when: string | null, who: string | null) =>
    when === null || who === null ? null : t('lib.by', { what: formatInstant(when, zone), who })
  return (
    <>
      <Table
        caption={t('job.estimatesFor', { jointName: bond.jointName })}
        rows={rows}
        rowKey={([name]) => name}
        columns={[
          { head: 'job.milestone', cell: ([name]) => name },
          { head: 'job.expected', cell: ([, milestone]) => at(milestone.readyAt.expected) },
          {
            head: 'job.careful',
            explained: 'careful',
            // Work time is over when it may be: its careful end is the earliest.
            cell: ([, milestone]) =>
              at(milestone.readyAt[milestone === workTime ? 'earliest' : 'conservative']),
          },
          { head: 'job.from', explained: 'estimated', cell: ([, milestone]) => BASIS[milestone.basis] },
        ]}
      />
      {bond.estimate.notes.map((note, index) => (
        <p key={`${note.kind}-${index}`} className={styles['soft']}>
          {note.message}
        </p>
      ))}
      <div className={styles['facts']}>
        <Facts
          facts={[
            [
              t('job.product'),
              t('job.sheet', { productName: bond.productName, revision: bond.sheet.revision }),
            ],
            [
              t('job.cartridges'),
              [bond, ...bond.moreCartridges]
                .map(({ cartridgeCode, lotNumber }) => t('job.lot', { cartridgeCode, lotNumber }))
                .join(', '),
            ],
            [t('job.amount'), amountText(bond.amountMl, bond.shortAmount ?? undefined)],
            [t('job.applied'), by(bond.appliedAt, bond.appliedBy)],
            [t('job.clamped'), by(bond.clampedAt, bond.clampedBy)],
            [t('job.released'), by(bond.releasedAt, bond.releasedBy)],
          ]}
        />
      </div>
      <p>
        <Link to="/bonds/$bondId/record" params={{ bondId: bond.id }}>
          {t('job.bondRecordOfAttempt', { attempt: bond.attempt })}
        </Link>
      </p>
      <Measurements bond={bond} />
      <Table
        caption={t('job.temperaturesOf', { jointName: bond.jointName })}
        rows={[...bond.readings].reverse().slice(0, 60)}
        rowKey={(reading) => `${reading.at}-${reading.source}`}
        columns={[
          { head: 'job.when', cell: (reading) => formatInstant(reading.at, zone) },
          {
            head: 'job.metalOrAir',
            number: true,
            cell: (r) => formatTemperature(r.temperatureC, reader().temperature),
          },
          { head: 'job.measuredWith', cell: (reading) => READING_SOURCE[reading.source] },
          { head: 'job.by', cell: (reading) => reading.by },
          {
            head: 'job.state',
            cell: ({ suspect }) => <QualityMark quality={suspect === true ? 'suspect' : 'good'} />,
          },
        ]}
      />
    </>
  )
}
