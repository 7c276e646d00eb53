import { CureRule } from '../../ui/answers/cure-rule.tsx'
import styles from './bays.module.css'
import type { ClockedBond } from './bay-standing.ts'
import { t } from '../../lib/reader.ts'

/** How far each bond on the vehicle has come towards handling strength. */
export function BayCure({
  bonds,
  isAsking,
}: {
  readonly bonds: readonly ClockedBond[]
  readonly isAsking: boolean
}) {
  return (
    <div className={styles['cure']}>
      {bonds.map(({ bond, clock }) => (
        <div key={bond.id}>
          <p>
            {bond.jointName} <span className={styles['soft']}>{bond.productName}</span>
          </p>
          {!isAsking && (
            <CureRule
              label={t('bays.cureOf', { jointName: bond.jointName })}
              conservative={clock.estimate.handlingStrength.progress.conservative}
              expected={clock.estimate.handlingStrength.progress.expected}
            />
          )}
        </div>
      ))}
    </div>
  )
}
