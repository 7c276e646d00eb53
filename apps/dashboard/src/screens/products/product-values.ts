import type { ROUTES } from '@clampclock/contracts'
import type { InputOf } from '../../api/client.ts'
import type { Product } from '../../api/types.ts'

export interface ProductValues {
  name: string
  chemistry: Product['chemistry']
  mixRatio: string
  cartridgeForm: string
  cartridgeMl: number | string
  openLifeDays: number | string
  nozzleHoldUpMl: number | string
  glassBeadMm: number | string
  storageRangeC: { min: number | undefined; max: number | undefined }
  labelStorageC: number | undefined
  toleratesPrimer: boolean
}

export const emptyProduct: ProductValues = {
  name: '',
  chemistry: 'acrylic',
  mixRatio: '',
  cartridgeForm: '',
  cartridgeMl: '',
  openLifeDays: '',
  nozzleHoldUpMl: '',
  glassBeadMm: 0.25,
  storageRangeC: { min: undefined, max: undefined },
  labelStorageC: undefined,
  toleratesPrimer: false,
}

/** What isn't given is sent as null, for the service to name the field. */
export function productBody(values: ProductValues): InputOf<typeof ROUTES.addProduct>['body'] {
  const number = (value: number | string) => (value === '' ? Number.NaN : Number(value))
  return {
    ...values,
    cartridgeMl: number(values.cartridgeMl),
    openLifeDays: number(values.openLifeDays),
    nozzleHoldUpMl: number(values.nozzleHoldUpMl),
    glassBeadMm: number(values.glassBeadMm),
    storageRangeC: {
      min: values.storageRangeC.min ?? Number.NaN,
      max: values.storageRangeC.max ?? Number.NaN,
    },
    labelStorageC: values.labelStorageC ?? Number.NaN,
    sheet: null,
  }
}
