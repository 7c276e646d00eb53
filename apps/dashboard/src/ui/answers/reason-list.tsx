import type { WireReason } from '@clampclock/contracts'
import styles from './reasons.module.css'

/** Reasons with their fixes, one under the other. */
export function ReasonList({ reasons }: { readonly reasons: readonly WireReason[] }) {
  if (reasons.length === 0) return null
  return (
    <ul className={styles['list']}>
      {reasons.map((reason, index) => (
        <li key={`${reason.code}-${index}`}>
          <p>{reason.message}</p>
          {reason.fix !== undefined && <p className={styles['fix']}>{reason.fix}</p>}
        </li>
      ))}
    </ul>
  )
}
