import { useSessionOver } from '../../lib/session.ts'
import { lazily } from '../../ui/lazily.tsx'

const SignInDialog = lazily(async () => (await import('./sign-in-dialog.tsx')).SignInDialog)

/** The sign-in has run out: asked for over the screen, so that nothing typed there is lost. */
export function SignInAgain() {
  return useSessionOver() ? <SignInDialog /> : null
}
