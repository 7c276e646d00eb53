import { Modal } from '@mantine/core'
import { lazy, Suspense } from 'react'
import { useSessionOver } from '../../lib/session.ts'

const SignInForm = lazy(async () => ({
  default: (await import('../../screens/sign-in/sign-in-form.tsx')).SignInForm,
}))

/** The sign-in has run out: asked for over the screen, so that nothing typed there is lost. */
export function SignInAgain() {
  const isOver = useSessionOver()
  return (
    <Modal opened={isOver} onClose={() => undefined} withCloseButton={false} title="Sign in again" centered>
      <p style={{ marginTop: 0 }}>
        Your sign-in has run out. What you typed is still there behind this window.
      </p>
      <Suspense>
        <SignInForm />
      </Suspense>
    </Modal>
  )
}
