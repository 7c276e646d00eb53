import { Loader } from '@mantine/core'
import type { ReactNode } from 'react'
import { ProblemPanel } from './problem-panel.tsx'
import styles from './waiting.module.css'
import { t } from '../lib/reader.ts'

interface LoadingProps {
  readonly what: string
  /** It is what the page is about: what stands below stays out of sight until it is there. */
  readonly isPage?: boolean
}

export function Loading({ what, isPage = false }: LoadingProps) {
  return (
    <output className={`${styles['wait']} ${isPage ? styles['page'] : ''}`}>
      <Loader size="sm" aria-hidden />
      {t('ui.loading', { what })}
    </output>
  )
}

interface EmptyProps {
  readonly title: string
  readonly children?: ReactNode
  readonly action?: ReactNode
}

/** Nothing to show, said as a fact, with what can be done about it. */
export function Empty({ title, children, action }: EmptyProps) {
  return (
    <div className={styles['empty']}>
      <strong>{title}</strong>
      {children}
      {action !== undefined && <div className={styles['actions']}>{action}</div>}
    </div>
  )
}

interface AnsweredProps<Data> {
  readonly query: {
    readonly data: Data | undefined
    readonly error: Error | null
    readonly refetch: () => unknown
  }
  readonly what: string
  readonly isPage?: boolean
  readonly children: (data: Data) => ReactNode
}

/** The three states of a question in one place. Old data stays on the screen when asking again fails. */
export function Answered<Data>({ query, what, isPage = false, children }: AnsweredProps<Data>) {
  const retry = () => void query.refetch()
  if (query.data === undefined) {
    return query.error === null ? (
      <Loading what={what} isPage={isPage} />
    ) : (
      <ProblemPanel error={query.error} onRetry={retry} />
    )
  }
  return (
    <>
      <ProblemPanel error={query.error} onRetry={retry} />
      {children(query.data)}
    </>
  )
}
