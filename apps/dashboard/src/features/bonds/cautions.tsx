import type { MessageKey } from '@clampclock/messages'
import { ShieldAlert } from 'lucide-react'
import styles from './cautions.module.css'
import { t } from '../../lib/reader.ts'

/** Where in the work the caution is shown. */
type Work = 'apply' | 'cure' | 'bake' | 'joint'

const TEXT = {
  joint: ['features.caution.structural', 'features.caution.sheets'],
  apply: ['features.caution.uncured', 'features.caution.slide'],
  cure: ['features.caution.handling', 'features.caution.squeezeOut'],
  bake: ['features.caution.ovens'],
} as const satisfies Record<Work, readonly MessageKey[]>

type CautionKey = (typeof TEXT)[Work][number]

/** The trade's cautions, beside the work that they are about. */
export function Cautions({ about }: { readonly about: readonly Work[] }) {
  return (
    <aside className={styles['cautions']} aria-label={t('features.cautions')}>
      <ShieldAlert size={20} aria-hidden />
      <ul>
        {about
          .flatMap((work): readonly CautionKey[] => TEXT[work])
          .map((key) => (
            <li key={key}>{t(key)}</li>
          ))}
      </ul>
    </aside>
  )
}
