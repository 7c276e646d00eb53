import { useEffect } from 'react'
import { SignInForm } from './sign-in-form.tsx'
import styles from '../../ui/front-page.module.css'

export default function SignInScreen() {
  useEffect(() => {
    document.title = 'Sign in · Clampclock'
  }, [])
  return (
    <main className={styles['page']}>
      <div className={styles['panel']}>
        <h1>Clampclock</h1>
        <p>Cure clock, adhesive stock and bay schedule</p>
        <SignInForm />
      </div>
    </main>
  )
}
