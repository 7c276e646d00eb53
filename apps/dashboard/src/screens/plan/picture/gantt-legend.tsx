import shared from '../../../ui/over-time.module.css'
import styles from './gantt.module.css'
import { t } from '../../../lib/reader.ts'

export function GanttLegend() {
  return (
    <ul className={`${shared['legend']} ${styles['legend']}`} aria-label={t('plan.legend')}>
      <li>
        <i className={styles['work']} /> {t('plan.work')}
      </li>
      <li>
        <i className={styles['bond']} /> {t('plan.bondAndClamp')}
      </li>
      <li>
        <i className={styles['cure']} /> {t('plan.cureNothingMayMoveTheLineIsWhenItIs')}
      </li>
      <li>
        <i className={styles['paint']} /> {t('plan.paint')}
      </li>
      <li>
        <i className={styles['bake']} /> {t('plan.bake')}
      </li>
      <li>
        <i className={styles['wait']} /> {t('plan.cool')}
      </li>
      <li>
        <i className={styles['stay']} style={{ top: 0 }} /> {t('plan.theVehicleStandsThere')}
      </li>
      <li>
        <i className={`${styles['stay']} ${styles['other']}`} style={{ top: 0 }} />{' '}
        {t('plan.takenBesideThePlanABondCuresOrBooked')}
      </li>
      <li>
        <i className={styles['off']} /> {t('plan.nobodyWorks')}
      </li>
    </ul>
  )
}
