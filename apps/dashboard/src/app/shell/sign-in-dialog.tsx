import { Modal } from '@mantine/core'
import { SignInForm } from '../../screens/sign-in/sign-in-form.tsx'

export function SignInDialog() {
  return (
    <Modal opened onClose={() => undefined} withCloseButton={false} title="Sign in again" centered>
      <p style={{ marginTop: 0 }}>
        Your sign-in has run out. What you typed is still there behind this window.
      </p>
      <SignInForm />
    </Modal>
  )
}
