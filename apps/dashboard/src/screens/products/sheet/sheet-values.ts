import type { ROUTES } from '@clampclock/contracts'
import type { InputOf } from '../../../api/client.ts'

type SheetBody = InputOf<typeof ROUTES.addProductSheet>['body']
type Figure = number | undefined

export interface PointValues {
  temperatureC: Figure
  workTimeMinutes: number | string
  handlingTimeMinutes: number | string
  fullCureMinutes: number | string
}

/** A data sheet as it is typed; temperatures are degC whatever the reader's unit. */
export interface SheetValues {
  revision: string
  issuedOn: string
  /** Empty: it counts as soon as it is approved. */
  validFrom: string
  points: PointValues[]
  applicationRangeC: { min: Figure; max: Figure }
  lowestCureC: Figure
  highestCureC: Figure
  serviceRangeC: { min: Figure; max: Figure }
}

export const emptyPoint: PointValues = {
  temperatureC: undefined,
  workTimeMinutes: '',
  handlingTimeMinutes: '',
  fullCureMinutes: '',
}

export const emptySheet: SheetValues = {
  revision: '',
  issuedOn: '',
  validFrom: '',
  points: [{ ...emptyPoint }],
  applicationRangeC: { min: undefined, max: undefined },
  lowestCureC: undefined,
  highestCureC: undefined,
  serviceRangeC: { min: undefined, max: undefined },
}

// What isn't given is sent as NaN, which JSON writes as null: the service then names the field.
const figure = (value: Figure) => value ?? Number.NaN
const number = (value: number | string) => (value === '' ? Number.NaN : Number(value))

export function sheetBody(values: SheetValues): SheetBody {
  return {
    revision: values.revision,
    issuedOn: values.issuedOn,
    validFrom: values.validFrom || null,
    points: values.points.map((point) => ({
      temperatureC: figure(point.temperatureC),
      workTimeMinutes: number(point.workTimeMinutes),
      handlingTimeMinutes: number(point.handlingTimeMinutes),
      fullCureMinutes: number(point.fullCureMinutes),
    })),
    applicationRangeC: {
      min: figure(values.applicationRangeC.min),
      max: figure(values.applicationRangeC.max),
    },
    lowestCureC: figure(values.lowestCureC),
    highestCureC: figure(values.highestCureC),
    serviceRangeC: { min: figure(values.serviceRangeC.min), max: figure(values.serviceRangeC.max) },
  }
}
