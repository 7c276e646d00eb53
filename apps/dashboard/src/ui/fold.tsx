import { useState, type ReactNode } from 'react'

interface Props {
  readonly summary: ReactNode
  readonly className?: string | undefined
  readonly children: ReactNode
}

/**
 * A part that is folded away: what is in it is made, and asked for, once somebody opens it, and stays from then on, with
 * what was typed there.
 */
export function Fold({ summary, className, children }: Props) {
  const [wasOpened, setWasOpened] = useState(false)
  return (
    <details className={className} onToggle={({ currentTarget }) => currentTarget.open && setWasOpened(true)}>
      <summary>{summary}</summary>
      {wasOpened && children}
    </details>
  )
}
