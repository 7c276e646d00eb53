import type { Translation } from '../../../keys.ts'
import type { patterns as english } from '../../en/service/attachment.ts'

export const patterns: Translation<typeof english> = {
  'attachment.tooLarge': 'tiene {kilobytes} kB; una foto puede tener 400 kB',
  'attachment.tooLargeFix': 'Redúzcala: 1600 píxeles en el lado más largo muestran lo que importa',
  'attachment.noPicture': 'no es una imagen JPEG, PNG o WebP completa',
  'attachment.noPictureFix': 'Envíe una imagen fija de una de estas clases, sin cortar',
  'attachment.tooManyPixels': 'tiene {width} × {height} píxeles; una foto puede tener 40 millones en total',
  'attachment.tooSmall': 'solo tiene {width} × {height} píxeles',
  'attachment.tooSmallFix': 'Envíe una foto de al menos {side} × {side} píxeles',
  'attachment.inTheFuture': 'está en el futuro: ¿va bien el reloj del dispositivo?',
  'attachment.noBondOfIt': 'no nombra ningún pegado de esta orden de reparación y unión',
  'attachment.noJointOfIt': 'no nombra ninguna unión de esta orden de reparación',
  'attachment.full': 'Ya hay {most} {kind, select, photo{fotos} other{notas}}, y más nadie las miraría',
  'attachment.fullFix':
    '{of, select, vehicle{Añádala a la unión de la que trata} other{Añádala al vehículo, o a otra unión de la que trate}}',
  'attachment.withdrawnAlready': '{by} ya la ha retirado',
}
