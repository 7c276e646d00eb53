import type { Translation } from '../../../keys.ts'
import type { patterns as english } from '../../en/service/note.ts'

export const patterns: Translation<typeof english> = {
  'note.slowerSheet':
    'La revisión {slower} de la hoja de datos de {product} es más lenta que la revisión {revision}, con la que se hizo: cuenta la más lenta',
}
