import type { Translation } from '../../keys.ts'
import type { patterns as english } from '../en/sign-in.ts'

export const patterns: Translation<typeof english> = {
  'sign-in.demoSignIns': 'Demo sign-ins',
  'sign-in.demoChainSignInAs': 'Demo chain: sign in as',
  'sign-in.eMail': 'E-mail',
  'sign-in.password': 'Password',
  'sign-in.signIn': 'Sign in',
  'sign-in.signInClampclock': 'Sign in · Clampclock',
  'sign-in.clampclock': 'Clampclock',
  'sign-in.cureClockAdhesiveStockAndBaySchedule': 'Cure clock, adhesive stock and bay schedule',
}
