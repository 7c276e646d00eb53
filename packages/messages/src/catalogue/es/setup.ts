import type { Translation } from '../../keys.ts'
import type { patterns as english } from '../en/setup.ts'

export const patterns: Translation<typeof english> = {
  'setup.setUpClampclock': 'Configuración · Clampclock',
  'setup.setUpClampclock2': 'Configurar Clampclock',
  'setup.createYourChainAndItsFirstOwnerShops':
    'Cree su cadena y su primer propietario. Talleres, puestos y personas vienen después.',
  'setup.setUpCode': 'Código de configuración',
  'setup.theServerPrintedItAtItsStart': 'El servidor lo imprimió al arrancar.',
  'setup.nameOfTheChain': 'Nombre de la cadena',
  'setup.yourName': 'Su nombre',
  'setup.yourEMail': 'Su correo electrónico',
  'setup.password': 'Contraseña',
  'setup.atLeast12CharactersASentenceIsGood': 'Al menos 12 caracteres. Una frase sirve.',
  'setup.createChainAndOwner': 'Crear cadena y propietario',
}
