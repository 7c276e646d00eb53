import { Button } from '@mantine/core'
import { lazy, Suspense, type ComponentType } from 'react'
import { t } from '../lib/reader.ts'

/** By then a page that was just opened has asked for everything that it shows. */
const AFTER_MS = 3_000

/**
 * A part of a page that nobody sees at first: a dialog, a menu, what is folded away. Its code comes once the page has
 * what it shows, so that no press waits for it, and at once when it is needed sooner.
 */
export function lazily<Props extends object>(
  load: () => Promise<ComponentType<Props>>,
  /** Stands in its place until then. */
  Placeholder?: ComponentType<Props>,
): ComponentType<Props> {
  const Part = lazy(async (): Promise<{ default: ComponentType<Props> }> => {
    try {
      return { default: await load() }
    } catch {
      // Not thrown: what else is on the page stays, with what is typed there.
      return { default: NotLoaded }
    }
  })
  if (typeof window !== 'undefined') window.setTimeout(() => void load().catch(() => undefined), AFTER_MS)
  return function Lazily(props: Props) {
    return (
      <Suspense fallback={Placeholder && <Placeholder {...props} />}>
        <Part {...props} />
      </Suspense>
    )
  }
}

function NotLoaded() {
  return (
    <div role="alert">
      <p>{t('ui.thisPartCouldNotBeLoadedThereIsNo')}</p>
      <Button variant="default" onClick={() => location.reload()}>
        {t('ui.loadThePageAgain')}
      </Button>
    </div>
  )
}
