import shared from '../../../ui/over-time.module.css'
import styles from './gantt.module.css'

export function GanttLegend() {
  return (
    <ul className={`${shared['legend']} ${styles['legend']}`} aria-label="Legend">
      <li>
        <i className={styles['work']} /> Work
      </li>
      <li>
        <i className={styles['bond']} /> Bond and clamp
      </li>
      <li>
        <i className={styles['cure']} /> Cure, nothing may move; the line is when it is expected to be through
      </li>
      <li>
        <i className={styles['paint']} /> Paint
      </li>
      <li>
        <i className={styles['bake']} /> Bake
      </li>
      <li>
        <i className={styles['wait']} /> Cool
      </li>
      <li>
        <i className={styles['stay']} style={{ top: 0 }} /> The vehicle stands there
      </li>
      <li>
        <i className={`${styles['stay']} ${styles['other']}`} style={{ top: 0 }} /> Taken beside the plan: a
        bond cures, or booked by hand
      </li>
      <li>
        <i className={styles['off']} /> Nobody works
      </li>
    </ul>
  )
}
