import { CircleCheck, CircleSlash, Hourglass, OctagonX, TriangleAlert, type LucideIcon } from 'lucide-react'
import type { ReactNode } from 'react'
import styles from './answer.module.css'
import type { Tone } from './tone.ts'

const ICONS: Record<Tone, LucideIcon> = {
  danger: OctagonX,
  warning: TriangleAlert,
  ready: CircleCheck,
  curing: Hourglass,
  quiet: CircleSlash,
}

interface Props {
  readonly tone: Tone
  /** The question as a person would ask it. */
  readonly question: string
  /** The answer in a few words. */
  readonly word: ReactNode
  readonly children?: ReactNode
}

/** One plain answer to one plain question, large enough to read at arm's length. */
export function Answer({ tone, question, word, children }: Props) {
  const Icon = ICONS[tone]
  return (
    <section className={`${styles['answer']} ${styles[tone]}`} aria-label={question}>
      <p className={styles['question']}>{question}</p>
      <p className={styles['word']}>
        <Icon size={30} strokeWidth={2.25} aria-hidden style={{ flex: 'none' }} />
        <span>{word}</span>
      </p>
      {children !== undefined && <div className={styles['body']}>{children}</div>}
    </section>
  )
}
