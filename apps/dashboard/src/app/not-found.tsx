import { Button } from '@mantine/core'
import { Link, type ErrorComponentProps } from '@tanstack/react-router'
import { Page } from '../ui/page.tsx'
import { ProblemPanel } from '../ui/problem-panel.tsx'
import { Empty } from '../ui/waiting.tsx'
import { t } from '../lib/reader.ts'

export function NotFound() {
  return (
    <Page title={t('app.noSuchPage')}>
      <Empty
        title={t('app.thereIsNothingAtThisAddress')}
        action={<Link to="/">{t('app.goToTheOverview')}</Link>}
      >
        {t('app.theLinkMayBeOldOrALetterOfItGotLost')}
      </Empty>
    </Page>
  )
}

/** A screen that broke says so, and can be tried again; the rest goes on. */
export function ScreenFault({ error, reset }: ErrorComponentProps) {
  if (isNotLoaded(error))
    return (
      <Page
        title={t('app.thisScreenCouldNotBeLoaded')}
        // The browser remembers that a part of the program did not come: only loading the page asks for it again.
        actions={<Button onClick={() => location.reload()}>{t('app.tryAgain')}</Button>}
      >
        <p>{t('app.thereIsNoNetworkOrTheServiceHasA')}</p>
      </Page>
    )
  return (
    <Page title={t('app.thisScreenFailed')} actions={<Button onClick={reset}>{t('app.tryAgain')}</Button>}>
      <ProblemPanel error={error instanceof Error ? error : new Error(String(error))} />
    </Page>
  )
}

/** How browsers, and the loader of styles, say that a part of the program did not come. */
function isNotLoaded(error: unknown): boolean {
  return (
    error instanceof Error &&
    /preload CSS|dynamically imported module|module script failed|Importing a module/i.test(error.message)
  )
}
