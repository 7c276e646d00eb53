import { useEffect } from 'react'
import { LanguageSwitch } from '../../ui/language-switch.tsx'
import { SignInForm } from './sign-in-form.tsx'
import styles from '../../ui/front-page.module.css'
import { t } from '../../lib/reader.ts'

export default function SignInScreen() {
  useEffect(() => {
    document.title = t('sign-in.signInClampclock')
  }, [])
  return (
    <main className={styles['page']}>
      <div className={styles['panel']}>
        <h1>{t('sign-in.clampclock')}</h1>
        <p>{t('sign-in.cureClockAdhesiveStockAndBaySchedule')}</p>
        <SignInForm />
        <LanguageSwitch />
      </div>
    </main>
  )
}
