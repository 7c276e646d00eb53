import type { ReactNode } from 'react'
import { formatLength } from '../../../lib/measures.ts'
import { t } from '../../../lib/reader.ts'
import { Step, type StepState } from '../step.tsx'
import { Guide } from './guide.tsx'
import styles from './prepare.module.css'

interface Props {
  /** Of 'adhesive on' and of 'clamped'. */
  readonly states: readonly [StepState, StepState]
  /** Of the product on file; undefined where it could not be had. */
  readonly glassBeadMm: number | undefined
  /** What the gates answer. */
  readonly children: ReactNode
}

/** From the nozzle to the clamps: the clock runs then, so what is to be done is read before. */
export function ApplySteps({ states: [on, clamped], glassBeadMm, children }: Props) {
  return (
    <>
      <Step title={t('start-bond.n4AdhesiveOn')} state={on}>
        <ul className={styles['guides']}>
          <Guide
            drawing="bead"
            title={t('start-bond.apply.bead')}
            why={
              glassBeadMm === undefined
                ? t('start-bond.apply.beadWhy')
                : t('start-bond.apply.beadWhyOf', { size: formatLength(glassBeadMm) })
            }
            isOnFile={glassBeadMm !== undefined}
          />
        </ul>
        {children}
      </Step>
      <Step title={t('start-bond.n5Clamped')} state={clamped} hint={t('start-bond.theClockIsOnTheNextPage')}>
        <ul className={styles['guides']}>
          <Guide drawing="slide" title={t('start-bond.apply.slide')} why={t('start-bond.apply.slideWhy')} />
          <Guide drawing="clamp" title={t('start-bond.apply.clamp')} why={t('start-bond.apply.clampWhy')} />
        </ul>
      </Step>
    </>
  )
}
