import { CircleCheck, Circle, Hourglass, OctagonAlert, TriangleAlert, type LucideIcon } from 'lucide-react'
import type { ReactNode } from 'react'
import styles from './mark.module.css'
import type { Tone } from './tone.ts'

const ICONS: Record<Tone, LucideIcon> = {
  danger: OctagonAlert,
  warning: TriangleAlert,
  ready: CircleCheck,
  curing: Hourglass,
  quiet: Circle,
}

interface Props {
  readonly tone: Tone
  readonly children: ReactNode
  readonly icon?: LucideIcon
  readonly filled?: boolean
}

/** A state in icon and word; the colour only repeats it. */
export function Mark({ tone, children, icon, filled = false }: Props) {
  const Icon = icon ?? ICONS[tone]
  return (
    <span className={`${styles['mark']} ${styles[tone]} ${filled ? styles['filled'] : ''}`}>
      <Icon size={16} strokeWidth={2.25} aria-hidden />
      <span>{children}</span>
    </span>
  )
}
