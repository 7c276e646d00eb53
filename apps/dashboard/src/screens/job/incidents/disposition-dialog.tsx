import { rich } from '../../../lib/rich.tsx'
import { ROUTES } from '../../../api/contracts.ts'
import { Button, Group, Modal, NativeSelect, Radio, Stack, Textarea, TextInput } from '@mantine/core'
import { useQuery } from '@tanstack/react-query'
import { useState, type SubmitEvent } from 'react'
import type { InputOf } from '../../../api/client.ts'
import { bondQueries } from '../../../api/queries/bonds.ts'
import type { Incident } from '../../../api/types.ts'
import { useAction } from '../../../api/use-action.ts'
import { INCIDENT } from '../../../lib/words.ts'
import { Mark } from '../../../ui/answers/mark.tsx'
import { ProblemPanel } from '../../../ui/problem-panel.tsx'
import { When } from '../../../ui/when.tsx'
import { PhotoField, type Photo } from './photo-field.tsx'
import { t } from '../../../lib/reader.ts'

interface Props {
  readonly incident: Incident
  readonly zone: string
  readonly onClose: () => void
}

type Disposal = InputOf<typeof ROUTES.disposeIncident>['body']
type Kind = Disposal['kind']

/** Whether the joint may be relied on after all: who inspected it, how, what was found. Nothing is chosen beforehand. */
export function DispositionDialog({ incident, zone, onClose }: Props) {
  const [kind, setKind] = useState<Kind>()
  const [inspectorId, setInspectorId] = useState('')
  const [method, setMethod] = useState('')
  const [result, setResult] = useState('')
  const [photo, setPhoto] = useState<Photo>()
  const asked = useQuery(bondQueries.inspectors(incident.id))
  const dispose = useAction(ROUTES.disposeIncident, {
    topics: ['bonds', 'repairs', 'alerts'],
    onDone: onClose,
  })
  const submit = (event: SubmitEvent) => {
    event.preventDefault()
    const body = bodyOf(kind, { inspectorId, method, result, photo: photo ?? null })
    if (body !== undefined) dispose.mutate({ params: { incidentId: incident.id }, body })
  }
  const {
    items = [],
    needsPhoto = false,
    needsSecondPerson = false,
    mayAccept,
    acceptableAt = null,
  } = asked.data ?? {}
  const isAccepting = kind === 'inspectedAndAccepted'
  return (
    <Modal opened onClose={onClose} title={INCIDENT[incident.kind]}>
      <form onSubmit={submit}>
        <Stack gap="md">
          <Radio.Group
            label={t('job.whatIsToBeDoneWithTheJoint')}
            required
            value={kind ?? ''}
            onChange={(value) => setKind(value as Kind)}
          >
            <Stack gap="xs" mt="xs">
              <Radio value="redone" label={t('job.makeItAgain')} required />
              <Radio value="inspectedAndAccepted" label={t('job.itWasInspectedAndIsAccepted')} required />
            </Stack>
          </Radio.Group>
          {isAccepting && mayAccept === false && (
            <Mark tone="warning">
              {t('job.itsAdhesiveCannotHaveReachedIt')}{' '}
              {acceptableAt === null
                ? t('job.itIsTooColdOrCannotBeComputedHaveIt')
                : rich('job.inspectItFrom', { at: <When at={acceptableAt} zone={zone} /> })}
            </Mark>
          )}
          {isAccepting && (
            <>
              <NativeSelect
                label={t('job.inspector')}
                description={t('job.qualifiedForTheClassOfTheJoint')}
                required
                data={[
                  { value: '', label: t('job.chooseWhoInspectedIt'), disabled: true },
                  ...items.map(({ id, name }) => ({ value: id, label: name })),
                ]}
                value={inspectorId}
                onChange={(event) => setInspectorId(event.currentTarget.value)}
              />
              <TextInput
                label={t('job.method')}
                description={t('job.suchAsTapTestLeverTestAtTheEdge')}
                required
                maxLength={120}
                value={method}
                onChange={(event) => setMethod(event.currentTarget.value)}
              />
            </>
          )}
          {kind !== undefined && (
            <Textarea
              label={isAccepting ? t('job.result') : t('job.whyMustItBeMadeAgain')}
              description={t('job.atLeast5CharactersStaysOnRecordFor')}
              required
              minLength={5}
              maxLength={2000}
              autosize
              minRows={2}
              value={result}
              onChange={(event) => setResult(event.currentTarget.value)}
            />
          )}
          {isAccepting && <PhotoField isRequired={needsPhoto} photo={photo} onChange={setPhoto} />}
          {isAccepting && needsSecondPerson && (
            <p style={{ margin: 0 }}>{t('job.thisClassAsksForASecondPersonThe')}</p>
          )}
          {kind === 'redone' && <p style={{ margin: 0 }}>{t('job.theVehicleStaysUntilTheJointWas')}</p>}
          <ProblemPanel error={dispose.error ?? asked.error} />
          <Group justify="flex-end">
            <Button variant="default" onClick={onClose}>
              {t('job.back')}
            </Button>
            <Button
              type="submit"
              loading={dispose.isPending}
              disabled={kind === undefined || (isAccepting && mayAccept !== true)}
            >
              {t('job.recordTheDecision')}
            </Button>
          </Group>
        </Stack>
      </form>
    </Modal>
  )
}

function bodyOf(
  kind: Kind | undefined,
  { result, ...how }: Omit<Extract<Disposal, { kind: 'inspectedAndAccepted' }>, 'kind'>,
): Disposal | undefined {
  switch (kind) {
    case undefined:
      return undefined
    case 'redone':
      return { kind, reason: result }
    case 'inspectedAndAccepted':
      return { kind, result, ...how }
  }
}
