import type { Translation } from '../../keys.ts'
import type { patterns as english } from '../en/sign-in.ts'

export const patterns: Translation<typeof english> = {
  'sign-in.demoSignIns': 'Accesos de demostración',
  'sign-in.demoChainSignInAs': 'Cadena de demostración: entrar como',
  'sign-in.eMail': 'Correo electrónico',
  'sign-in.password': 'Contraseña',
  'sign-in.signIn': 'Iniciar sesión',
  'sign-in.signInClampclock': 'Iniciar sesión · Clampclock',
  'sign-in.clampclock': 'Clampclock',
  'sign-in.cureClockAdhesiveStockAndBaySchedule': 'Reloj de curado, material adhesivo y agenda de puestos',
}
