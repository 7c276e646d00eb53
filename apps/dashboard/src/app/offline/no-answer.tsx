import { Button } from '@mantine/core'
import { useQueryClient } from '@tanstack/react-query'
import { useEffect, useState } from 'react'
import { call } from '../../api/client.ts'
import { ROUTES } from '../../api/contracts.ts'
import { isNoAnswer } from '../../api/problem.ts'
import { accessQueries } from '../../api/queries/access.ts'
import { t } from '../../lib/reader.ts'
import { Page } from '../../ui/page.tsx'
import { ProblemPanel } from '../../ui/problem-panel.tsx'

const ASK_AGAIN_MS = 5_000

interface Props {
  readonly error: Error | null
  readonly onRetry: () => void
}

/** In place of everything, as long as it is not known who is there: the reason, and what to do until there is an answer. */
export default function NoAnswer({ error, onRetry }: Props) {
  return (
    <main style={{ padding: '2rem' }}>
      {isNoAnswer(error) ? (
        <Offline />
      ) : (
        <Page title={t('offline.noAnswerFromTheServer')} narrow>
          <ProblemPanel error={error} onRetry={onRetry} />
        </Page>
      )}
    </main>
  )
}

/** The shell without anybody behind it: says so, asks again, and goes on by itself. */
function Offline() {
  const { isAsking, ask } = useAnswerAgain()
  return (
    <Page title={t('offline.offline')} narrow>
      <p>{t('offline.theServiceDoesNotAnswer')}</p>
      <p>
        <strong>{t('offline.nothingIsToldOfAJoint')}</strong>
      </p>
      <p>{t('offline.goesOnByItself')}</p>
      <Button mih={48} aria-disabled={isAsking} onClick={() => void ask()}>
        {t('offline.askAgain')}
      </Button>
    </Page>
  )
}

/**
 * Asks beside the query that the page hangs on: that one counts as new while it is asked again, and the screen would go
 * and come with each try.
 */
function useAnswerAgain() {
  const client = useQueryClient()
  const [isAsking, setAsking] = useState(false)
  const [ask] = useState(() => async () => {
    setAsking(true)
    const { queryKey } = accessQueries.me()
    try {
      client.setQueryData(queryKey, await call(ROUTES.me, { signal: AbortSignal.timeout(ASK_AGAIN_MS) }))
    } catch (error) {
      // Somebody is there and has something else to say.
      if (error instanceof Error && !isNoAnswer(error) && error.name !== 'TimeoutError')
        await client.resetQueries({ queryKey })
    }
    setAsking(false)
  })
  useEffect(() => {
    const timer = setInterval(() => void ask(), ASK_AGAIN_MS)
    const now = () => void ask()
    window.addEventListener('online', now)
    return () => {
      clearInterval(timer)
      window.removeEventListener('online', now)
    }
  }, [ask])
  return { isAsking, ask }
}
