import { useEffect, useRef, type ReactNode } from 'react'
import styles from './page.module.css'

interface PageProps {
  /** Heading and document title. */
  readonly title: string
  readonly lede?: ReactNode
  readonly actions?: ReactNode
  /** Forms and reading matter: a line length that reads well. */
  readonly narrow?: boolean
  readonly children: ReactNode
}

/** One screen: its title is the document's, and takes the focus so that a screen reader hears where it is. */
export function Page({ title, lede, actions, narrow = false, children }: PageProps) {
  const heading = useRef<HTMLHeadingElement>(null)
  useEffect(() => {
    document.title = `${title} · Clampclock`
  }, [title])
  useEffect(() => {
    heading.current?.focus({ preventScroll: true })
  }, [])
  return (
    <div className={narrow ? styles['narrow'] : undefined}>
      <header className={styles['head']}>
        <div>
          <h1 ref={heading} tabIndex={-1}>
            {title}
          </h1>
          {lede !== undefined && <p className={styles['lede']}>{lede}</p>}
        </div>
        {actions !== undefined && <div className={styles['actions']}>{actions}</div>}
      </header>
      {children}
    </div>
  )
}

interface SectionProps {
  readonly title: string
  readonly children: ReactNode
}

export function Section({ title, children }: SectionProps) {
  return (
    <section className={styles['section']} aria-label={title}>
      <h2>{title}</h2>
      {children}
    </section>
  )
}

/** A plain white surface with a hairline round it. */
export function Sheet({
  children,
  padded = false,
}: {
  readonly children: ReactNode
  readonly padded?: boolean
}) {
  return <div className={`${styles['sheet']} ${padded ? styles['padded'] : ''}`}>{children}</div>
}
