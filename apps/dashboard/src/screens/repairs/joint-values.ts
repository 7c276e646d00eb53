import type { ROUTES } from '@clampclock/contracts'
import type { InputOf } from '../../api/client.ts'
import type { Joint } from '../../api/types.ts'

export interface JointValues {
  name: string
  productId: string
  safetyClass: Joint['safetyClass']
  panelMaterial: Joint['panelMaterial']
  panelThicknessMm: number | string
  lengthMm: number | string
  flangeWidthMm: number | string
  beadDiameterMm: number | string
  procedure: { document: string; revision: string; lookedUpOn: string }
}

export const initialJoint: JointValues = {
  name: '',
  productId: '',
  safetyClass: 'S2',
  panelMaterial: 'mildSteel',
  panelThicknessMm: 0.8,
  lengthMm: '',
  flangeWidthMm: 20,
  beadDiameterMm: 6,
  procedure: { document: '', revision: '', lookedUpOn: '' },
}

/** The request; a procedure that isn't looked up yet is none, a half-filled one is sent for the service to name. */
export function jointBody(values: JointValues): InputOf<typeof ROUTES.addJoint>['body'] {
  const { document, revision, lookedUpOn } = values.procedure
  return {
    ...values,
    panelThicknessMm: Number(values.panelThicknessMm),
    lengthMm: Number(values.lengthMm),
    flangeWidthMm: Number(values.flangeWidthMm),
    beadDiameterMm: Number(values.beadDiameterMm),
    procedure: document === '' && revision === '' && lookedUpOn === '' ? null : values.procedure,
  }
}
