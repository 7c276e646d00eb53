export const patterns = {
  'sign-in.demoSignIns': 'Demo sign-ins',
  'sign-in.demoChainSignInAs': 'Demo chain: sign in as',
  'sign-in.eMail': 'E-mail',
  'sign-in.password': 'Password',
  'sign-in.signIn': 'Sign in',
  'sign-in.signInClampclock': 'Sign in · Clampclock',
  'sign-in.clampclock': 'Clampclock',
  'sign-in.cureClockAdhesiveStockAndBaySchedule': 'Cure clock, adhesive stock and bay schedule',
} as const
