import { t } from '../../lib/reader.ts'
import { Page } from '../../ui/page.tsx'
import { PasswordSection } from './password-section.tsx'
import { SessionSection } from './session-section.tsx'

/** What a person keeps of his own sign-in. */
export function AccountScreen() {
  return (
    <Page title={t('account.title')} narrow>
      <PasswordSection />
      <SessionSection />
    </Page>
  )
}
