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
            label="What is to be done with the joint?"
            required
            value={kind ?? ''}
            onChange={(value) => setKind(value as Kind)}
          >
            <Stack gap="xs" mt="xs">
              <Radio value="redone" label="Make it again" required />
              <Radio value="inspectedAndAccepted" label="It was inspected, and is accepted" required />
            </Stack>
          </Radio.Group>
          {isAccepting && mayAccept === false && (
            <Mark tone="warning">
              Its adhesive cannot have reached handling strength yet.{' '}
              {acceptableAt === null ? (
                'It is too cold, or cannot be computed: have it made again.'
              ) : (
                <>
                  Inspect it from <When at={acceptableAt} zone={zone} /> on, or have it made again.
                </>
              )}
            </Mark>
          )}
          {isAccepting && (
            <>
              <NativeSelect
                label="Inspector"
                description="Qualified for the class of the joint"
                required
                data={[
                  { value: '', label: 'Choose who inspected it', disabled: true },
                  ...items.map(({ id, name }) => ({ value: id, label: name })),
                ]}
                value={inspectorId}
                onChange={(event) => setInspectorId(event.currentTarget.value)}
              />
              <TextInput
                label="Method"
                description="Such as tap test, lever test at the edge, ultrasonic, cut-open sample"
                required
                maxLength={120}
                value={method}
                onChange={(event) => setMethod(event.currentTarget.value)}
              />
            </>
          )}
          {kind !== undefined && (
            <Textarea
              label={isAccepting ? 'Result' : 'Why must it be made again?'}
              description="At least 5 characters; stays on record for ever."
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
            <p style={{ margin: 0 }}>
              This class asks for a second person: the joint counts once somebody else entitled has agreed.
            </p>
          )}
          {kind === 'redone' && (
            <p style={{ margin: 0 }}>
              The vehicle stays until the joint was bonded again and released at handling strength.
            </p>
          )}
          <ProblemPanel error={dispose.error ?? asked.error} />
          <Group justify="flex-end">
            <Button variant="default" onClick={onClose}>
              Back
            </Button>
            <Button
              type="submit"
              loading={dispose.isPending}
              disabled={kind === undefined || (isAccepting && mayAccept !== true)}
            >
              Record the decision
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
