import { Modal } from '@mantine/core'
import { SignInForm } from '../../screens/sign-in/sign-in-form.tsx'
import { t } from '../../lib/reader.ts'

export function SignInDialog() {
  return (
    <Modal opened onClose={() => undefined} withCloseButton={false} title={t('app.signInAgain')} centered>
      <p style={{ marginTop: 0 }}>{t('app.yourSignInHasRunOutWhatYouTypedIs')}</p>
      <SignInForm />
    </Modal>
  )
}
