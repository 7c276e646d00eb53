import { useQuery } from '@tanstack/react-query'
import { lazy, Suspense } from 'react'
import { isProblem } from '../api/problem.ts'
import { accessQueries } from '../api/queries/access.ts'
import { Page } from '../ui/page.tsx'
import { ProblemPanel } from '../ui/problem-panel.tsx'
import { Loading } from '../ui/waiting.tsx'
import { Shell } from './shell/shell.tsx'
import { useReaderOf } from './use-reader-of.ts'
import { t } from '../lib/reader.ts'

const SignIn = lazy(() => import('../screens/sign-in/sign-in-screen.tsx'))

/** Nobody gets past here unknown. The address is kept, so that a link opens after the sign-in. */
export function Gate() {
  const me = useQuery(accessQueries.me())
  const isReady = useReaderOf(me.data)
  return (
    <Suspense fallback={<Loading what={t('app.clampclock')} />}>
      {!isReady ? (
        <Loading what={t('app.clampclock')} />
      ) : me.data !== undefined ? (
        <Shell />
      ) : isProblem(me.error, 'not-signed-in') ? (
        <SignIn />
      ) : me.error !== null ? (
        <main style={{ padding: '2rem' }}>
          <Page title={t('app.noAnswerFromTheServer')} narrow>
            <ProblemPanel error={me.error} onRetry={() => void me.refetch()} />
          </Page>
        </main>
      ) : (
        <Loading what={t('app.clampclock')} />
      )}
    </Suspense>
  )
}
