import type { Bond } from '../../api/types.ts'
import styles from './start-bond.module.css'
import { t } from '../../lib/reader.ts'

/** Somebody else bonded the joint while this form was open: what stands in it is of no attempt any more. */
export function Overtaken({ bond }: { readonly bond: Pick<Bond, 'appliedBy'> | undefined }) {
  return (
    <p className={styles['fault']} role="alert">
      {t('start-bond.bondedMeanwhile', { by: bond?.appliedBy ?? '' })}
    </p>
  )
}
