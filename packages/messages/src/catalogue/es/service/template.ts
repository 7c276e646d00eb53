import type { Translation } from '../../../keys.ts'
import type { patterns as english } from '../../en/service/template.ts'

export const patterns: Translation<typeof english> = {
  'template.doorSkin': 'Panel de puerta',
  'template.quarterPanel': 'Aleta trasera',
  'template.rocker': 'Estribo',
  'template.roof': 'Panel de techo',
  'template.aluminiumPanel': 'Panel de aluminio',
  'template.prepare': 'Preparar: hasta metal brillante, limpio',
  'template.dryFit': 'Montaje en seco',
  'template.bondAndClamp': 'Pegar y fijar con prensas',
  'template.cure': 'Curado',
  'template.unclampAndDress': 'Quitar prensas y repasar',
  'template.weldFlanges': 'Soldar las pestañas que pide el procedimiento',
  'template.weldOrRivet': 'Soldar o remachar donde lo pide el procedimiento',
  'template.rivet': 'Remachar donde lo pide el procedimiento',
  'template.sealAndPrime': 'Sellar y preparar para pintura',
  'template.paint': 'Pintar',
  'template.bake': 'Horneado',
  'template.cool': 'Enfriar',
  'template.refit': 'Montar',
}
