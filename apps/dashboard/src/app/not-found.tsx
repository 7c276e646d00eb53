import { Button } from '@mantine/core'
import { Link, type ErrorComponentProps } from '@tanstack/react-router'
import { Page } from '../ui/page.tsx'
import { ProblemPanel } from '../ui/problem-panel.tsx'
import { Empty } from '../ui/waiting.tsx'

export function NotFound() {
  return (
    <Page title="No such page">
      <Empty title="There is nothing at this address." action={<Link to="/">Go to the overview</Link>}>
        The link may be old, or a letter of it got lost.
      </Empty>
    </Page>
  )
}

/** A screen that broke says so, and can be tried again; the rest goes on. */
export function ScreenFault({ error, reset }: ErrorComponentProps) {
  if (isNotLoaded(error))
    return (
      <Page
        title="This screen could not be loaded"
        // The browser remembers that a part of the program did not come: only loading the page asks for it again.
        actions={<Button onClick={() => location.reload()}>Try again</Button>}
      >
        <p>
          There is no network, or the service has a newer version. What you see elsewhere stays as it was.
        </p>
      </Page>
    )
  return (
    <Page title="This screen failed" actions={<Button onClick={reset}>Try again</Button>}>
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
