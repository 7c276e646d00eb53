import { useQuery } from '@tanstack/react-query'
import { lazy, Suspense } from 'react'
import { isProblem, UnreachableError } from '../api/problem.ts'
import { accessQueries } from '../api/queries/access.ts'
import { Loading } from '../ui/waiting.tsx'
import { Shell } from './shell/shell.tsx'
import { useReaderOf } from './use-reader-of.ts'
import { t, withWords } from '../lib/reader.ts'

const SignIn = lazy(() => import('../screens/sign-in/sign-in-screen.tsx'))

const ChoosePassword = lazy(() => withWords(import('../screens/account/choose-password.tsx'), 'account'))

const NoAnswer = lazy(() => withWords(import('./offline/no-answer.tsx'), 'offline'))

/** Nobody gets past here unknown. The address is kept, so that a link opens after the sign-in. */
export function Gate() {
  const me = useQuery(accessQueries.me())
  const isReady = useReaderOf(me.data)
  return (
    <Suspense fallback={<Loading what={t('app.clampclock')} />}>
      {!isReady ? (
        <Loading what={t('app.clampclock')} />
      ) : me.data?.mustChangePassword ? (
        <ChoosePassword email={me.data.email ?? ''} />
      ) : me.data !== undefined ? (
        <Shell />
      ) : isProblem(me.error, 'not-signed-in') ? (
        <SignIn />
      ) : me.error !== null || me.failureReason instanceof UnreachableError ? (
        // With the first silence: whoever stands beside a vehicle need not wait for the third.
        <NoAnswer error={me.failureReason} onRetry={() => void me.refetch()} />
      ) : (
        <Loading what={t('app.clampclock')} />
      )}
    </Suspense>
  )
}
