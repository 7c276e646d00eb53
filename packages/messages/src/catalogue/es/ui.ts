import type { Translation } from '../../keys.ts'
import type { patterns as english } from '../en/ui.ts'

export const patterns: Translation<typeof english> = {
  'ui.tryAgain': 'Intentar de nuevo',
  'ui.notDoneYetSomethingFilledInNeeds': 'Aún no está hecho: hay un dato que revisar.',
  'ui.loading': 'Cargando {what}…',
  'ui.thisPartCouldNotBeLoadedThereIsNo':
    'No se pudo cargar esta parte: no hay red, o el servicio tiene una versión más nueva. Cuando vuelva la red, cargue la página de nuevo.',
  'ui.loadThePageAgain': 'Cargar la página de nuevo',
  'ui.atLeast5CharactersStaysOnRecordFor': 'Al menos 5 caracteres; queda registrado para siempre.',
  'ui.back': 'Volver',
  'ui.percentSurePercentExpected': '{sure} por ciento seguro, {likely} por ciento esperado',
  'ui.sure': '{sure} % seguro',
  'ui.expected': '{likely} % esperado',
  'ui.filters': 'Filtros',
  'ui.showMore': 'Mostrar más',
  'ui.leaveWithoutSaving': '¿Salir sin guardar?',
  'ui.whatYouChangedHereHasNotBeenSaved': 'Lo que cambió aquí no se ha guardado.',
  'ui.leaveAndDropTheChanges': 'Salir y descartar los cambios',
  'ui.stay': 'Quedarse',
  'ui.earlier': 'Antes',
  'ui.today': 'Hoy',
  'ui.later': 'Después',
  'ui.firstDay': 'Primer día',
  'ui.unit': 'Unidad',
  'ui.moveUp': 'Subir {name}',
  'ui.moveDown': 'Bajar {name}',
  'ui.noFurtherUp': '{name} no puede subir más',
  'ui.noFurtherDown': '{name} no puede bajar más',
  'ui.whatIs': 'Qué significa: {name}',
}
