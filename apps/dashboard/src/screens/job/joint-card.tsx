import { Button } from '@mantine/core'
import { Link } from '@tanstack/react-router'
import { Droplets } from 'lucide-react'
import { Help } from '../../ui/help/help.tsx'
import { formatLength, formatVolume } from '../../lib/measures.ts'
import type { Joint, RepairOrderDetail } from '../../api/types.ts'
import { useActs } from '../../api/acts/state.ts'
import { useMay } from '../../api/use-me.ts'
import { formatDate } from '../../lib/instants.ts'
import { MATERIAL, SAFETY_CLASS, SAFETY_DEMAND, BOND_STATE } from '../../lib/words.ts'
import { Facts } from '../../ui/facts.tsx'
import { BondPanel } from './bond-panel.tsx'
import styles from './job.module.css'
import { KeptCartridges } from './kept-cartridges.tsx'
import { ProcedureButton } from './procedure-button.tsx'
import { lazily } from '../../ui/lazily.tsx'
import { t, withWords } from '../../lib/reader.ts'

const JointActs = lazily(
  async () => (await withWords(import('../../features/acts/acts-parts.tsx'), 'acts')).JointActs,
)

interface Props {
  readonly joint: Joint
  readonly job: RepairOrderDetail
}

/** States in which the next thing is to bond it, for the first time or again. */
const FREE: ReadonlySet<Joint['state']> = new Set(['neverBonded', 'abandoned', 'lifted', 'toBeRedone'])

const isRunning = ({ state }: Joint['bonds'][number]): boolean => state === 'applied' || state === 'clamped'

/** One joint: what it is made by, and its latest attempt. */
export function JointCard({ joint, job }: Props) {
  const may = useMay()
  const latest = joint.bonds.at(-1)
  const earlier = joint.bonds.slice(0, -1)
  const mayStart = job.state === 'open' && may('makeBonds', job.shopId)
  // What was pressed and has no answer yet is an attempt: another is not begun beside it.
  const isStarting = useActs().items.some(
    ({ kind, state, about }) => kind === 'startBond' && state === 'waiting' && about.jointId === joint.id,
  )
  const isFree = FREE.has(joint.state) && (latest === undefined || !isRunning(latest))
  return (
    <section className={styles['joint']} aria-label={joint.name}>
      <header className={styles['head']}>
        <h2>{joint.name}</h2>
        <p>
          {t('job.needs', {
            productName: joint.productName,
            amountNeeded: formatVolume(joint.amountNeededMl, 'up'),
          })}
        </p>
        <p>
          <strong>{SAFETY_CLASS[joint.safetyClass]}</strong>
          <Help of="safetyClass" name={SAFETY_CLASS[joint.safetyClass]} />
          {SAFETY_DEMAND[joint.safetyClass]}.
        </p>
      </header>
      <div className={styles['body']}>
        <JointActs jointId={joint.id} jointName={joint.name} />
        {latest !== undefined && <BondPanel bond={latest} />}
        {isFree && (
          <p className={styles['soft']}>
            {latest === undefined ? t('job.notBondedYet') : t('job.toBeBondedAgain')}
          </p>
        )}
        {isFree && job.state === 'open' && <KeptCartridges joint={joint} shopId={job.shopId} />}
        {isFree && mayStart && !isStarting && (
          <div className={styles['buttons']}>
            <Button
              size="lg"
              leftSection={<Droplets size={20} aria-hidden />}
              renderRoot={(props) => (
                <Link
                  {...props}
                  to="/jobs/$repairOrderId/joints/$jointId/bond"
                  params={{ repairOrderId: job.id, jointId: joint.id }}
                />
              )}
            >
              {t('job.startABond')}
            </Button>
          </div>
        )}
        <details className={styles['details']}>
          <summary>{t('job.procedureMaterialAndSize')}</summary>
          <Facts
            facts={[
              [t('job.panel'), `${MATERIAL[joint.panelMaterial]}, ${formatLength(joint.panelThicknessMm)}`],
              [
                t('job.bondLine'),
                t('job.longFlangeBead', {
                  length: formatLength(joint.lengthMm),
                  flangeWidth: formatLength(joint.flangeWidthMm),
                  beadDiameter: formatLength(joint.beadDiameterMm),
                }),
                'bondLine',
              ],
              [
                t('job.procedure'),
                joint.procedure === null
                  ? t('job.noneRecorded')
                  : t('job.revisionLookedUp', {
                      document: joint.procedure.document,
                      revision: joint.procedure.revision,
                      lookedUpOn: formatDate(joint.procedure.lookedUpOn),
                    }),
              ],
            ]}
          />
          {joint.procedure !== null && <ProcedureButton joint={joint} shopId={job.shopId} />}
        </details>
        {joint.procedure === null && <ProcedureButton joint={joint} shopId={job.shopId} />}
      </div>
      {earlier.length > 0 && (
        <ul className={styles['attempts']} aria-label={t('job.earlierAttempts')}>
          {earlier.map((bond) => (
            <li key={bond.id}>
              {t('job.attemptIs', { attempt: bond.attempt, state: BOND_STATE[bond.state].toLowerCase() })}
              {bond.abandonReason !== null && `, ${bond.abandonReason}`}
            </li>
          ))}
        </ul>
      )}
    </section>
  )
}
