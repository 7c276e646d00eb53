import { ShieldAlert } from 'lucide-react'
import styles from './cautions.module.css'
import { t } from '../../lib/reader.ts'

/** Where in the work the caution is shown. */
type Work = 'apply' | 'cure' | 'bake' | 'joint'

const TEXT: Record<Work, readonly string[]> = {
  joint: [
    "Structural repair: the vehicle maker's procedure and trained people only. What the factory welded stays welded, adhesive or not.",
    'The data sheet and the safety data sheet rule over any figure here.',
  ],
  apply: [
    'Uncured resins, hardeners and solvents sensitise and burn: gloves, eye protection, ventilation, and a respirator as the safety data sheet says.',
    'To align, slide the panels. Once lifted apart, air is trapped and this attempt is over: scrape both sides and apply again.',
  ],
  cure: [
    'Handling strength is not driving strength.',
    'Squeeze-out that stays tacky says nothing about the joint: air reaches it.',
  ],
  bake: [
    'Ovens and booths: local fire code, licensed service. A bake counts from the metal at temperature, not from the set point.',
  ],
}

/** The trade's cautions, beside the work that they are about. */
export function Cautions({ about }: { readonly about: readonly Work[] }) {
  return (
    <aside className={styles['cautions']} aria-label={t('features.cautions')}>
      <ShieldAlert size={20} aria-hidden />
      <ul>
        {about
          .flatMap((work) => TEXT[work])
          .map((text) => (
            <li key={text}>{text}</li>
          ))}
      </ul>
    </aside>
  )
}
