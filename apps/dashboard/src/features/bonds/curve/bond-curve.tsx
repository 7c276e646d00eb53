import { useIsPhone } from '../../../lib/use-is-phone.ts'
import { lazy, Suspense } from 'react'
import type { BondCurve } from '../../../api/types.ts'
import { Empty, Loading } from '../../../ui/waiting.tsx'
import { CurveTable } from './curve-table.tsx'
import styles from './curve.module.css'
import { t } from '../../../lib/reader.ts'

/** The drawing library is the heaviest part of the dashboard: a phone loads it only to draw. */
const CurvePlot = lazy(() => import('./curve-plot.tsx'))

interface Props {
  readonly curve: BondCurve
  readonly jointName: string
  readonly unit: 'C' | 'F'
  readonly zone: string
  readonly nowMs: number
}

/** A bond's temperature and progress, drawn, and the same in figures. */
export function BondCurveView({ curve, jointName, unit, zone, nowMs }: Props) {
  const isNarrow = useIsPhone()
  return (
    <div className={styles['curve']}>
      {curve.points.length === 0 ? (
        <Empty title={t('features.noTemperatureIsKnownYet')}>
          {t('features.addAPanelTemperatureToDrawTheCurve')}
        </Empty>
      ) : (
        <Suspense fallback={<Loading what={t('features.theCurve')} />}>
          <CurvePlot curve={curve} unit={unit} zone={zone} nowMs={nowMs} isNarrow={isNarrow} />
        </Suspense>
      )}
      <CurveTable
        curve={curve}
        caption={t('features.curveOfInFigures', { jointName })}
        unit={unit}
        zone={zone}
        nowMs={nowMs}
      />
    </div>
  )
}
