import type { patterns as english } from '../en/account.ts'
import type { Translation } from '../../keys.ts'

export const patterns: Translation<typeof english> = {
  'account.title': 'Contraseña y accesos',
  'account.password': 'Contraseña',
  'account.presentPassword': 'Contraseña actual',
  'account.newPassword': 'Contraseña nueva',
  'account.newPasswordAgain': 'Contraseña nueva otra vez',
  'account.atLeast12':
    'Al menos 12 caracteres; lo mejor son varias palabras que no tengan nada que ver entre sí',
  'account.notTheSame': 'no es igual que la de arriba',
  'account.changePassword': 'Cambiar la contraseña',
  'account.changed': 'La contraseña ha cambiado. Se ha cerrado la sesión en los demás dispositivos.',
  'account.signIns': 'Dónde tiene la sesión abierta',
  'account.signInsLede': 'Un dispositivo que no conoce: cierre su sesión y cambie la contraseña.',
  'account.signInsLower': 'dónde tiene la sesión abierta',

  'account.phone': 'Teléfono o tableta',
  'account.computer': 'Ordenador',
  'account.program': 'Programa',
  'account.thisOne': 'Este dispositivo',
  'account.since': 'Desde',
  'account.lastUsed': 'Último uso',
  'account.until': 'Se cierra sola',
  'account.signOut': 'Cerrar sesión',
  'account.deviceSince': '{device}, desde {since}',
  'account.signOutEverywhere': 'Cerrar todas las sesiones',
  'account.everywhereMeans':
    'Se cierra la sesión en todos sus dispositivos, también en este. No se pierde nada de lo guardado.',
  'account.stay': 'Seguir con la sesión',
  'account.chooseTitle': 'Elija su propia contraseña',
  'account.chooseLede':
    'La contraseña con la que ha entrado la puso otra persona. Elija una que solo conozca usted; después se abre todo.',
  'account.choose': 'Elegir',
}
