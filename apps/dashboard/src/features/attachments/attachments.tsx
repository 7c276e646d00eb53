import { Button, FileButton, NativeSelect, TextInput } from '@mantine/core'
import { useDisclosure } from '@mantine/hooks'
import { useQuery } from '@tanstack/react-query'
import { Camera, Images, NotebookPen } from 'lucide-react'
import { useRef, useState } from 'react'
import { attachmentsQuery } from '../../api/queries/attachments.ts'
import { useMay } from '../../api/use-me.ts'
import { useShop, zoneOf } from '../../lib/shop-scope.ts'
import { useFocusBack } from '../../lib/use-focus-back.ts'
import { Sheet } from '../../ui/page.tsx'
import { Answered } from '../../ui/waiting.tsx'
import { t } from '../../lib/reader.ts'
import { AddNote } from './add-note.tsx'
import { AttachmentList } from './attachment-list.tsx'
import styles from './attachments.module.css'
import { keyOf, labelOf, ofBond, ofVehicle, type Subject } from './subject.ts'
import { Unsent } from './unsent.tsx'
import { usePhotoOutbox } from './use-photo-outbox.ts'

interface Props {
  readonly repairOrderId: string
  readonly shopId: string
  /** On the page of the vehicle, its joints; on that of a bond, the bond. */
  readonly joints?: Parameters<typeof ofVehicle>[0]
  readonly bond?: Parameters<typeof ofBond>[0]
}

/** Photos and notes: those that are there, and the ways to add one. */
export function Attachments({ repairOrderId, shopId, joints = [], bond }: Props) {
  const subjects = bond === undefined ? ofVehicle(joints) : ofBond(bond)
  const may = useMay()
  const zone = zoneOf(useShop(shopId))
  const query = useQuery(attachmentsQuery(repairOrderId, shopId))
  const mayAdd = may('documentWork', shopId)
  return (
    <Sheet padded>
      <Answered query={query} what={t('attachments.thePhotosAndNotes')}>
        {({ items }) => {
          const shown = items.filter((item) => labelOf(item, subjects) !== undefined)
          return shown.length === 0 ? (
            <p className={styles['soft']}>{t('attachments.noneYet')}</p>
          ) : (
            <AttachmentList attachments={shown} subjects={subjects} zone={zone} mayWithdraw={mayAdd} />
          )
        }}
      </Answered>
      {mayAdd && <Adding repairOrderId={repairOrderId} subjects={subjects} />}
    </Sheet>
  )
}

interface AddingProps {
  readonly repairOrderId: string
  readonly subjects: readonly Subject[]
}

function Adding({ repairOrderId, subjects }: AddingProps) {
  const [key, setKey] = useState(keyOf(subjects[0]!))
  const [caption, setCaption] = useState('')
  const [isWriting, writing] = useDisclosure()
  const focus = useFocusBack()
  const outbox = usePhotoOutbox(repairOrderId)
  const camera = useRef<() => void>(null)
  const files = useRef<() => void>(null)
  // What it was of may be gone meanwhile.
  const subject = subjects.find((each) => keyOf(each) === key) ?? subjects[0]!
  const take = async (chosen: readonly File[]) => {
    await outbox.take(chosen, { jointId: subject.jointId, bondId: subject.bondId, caption: caption.trim() })
    setCaption('')
    // The same file may be chosen once more.
    camera.current?.()
    files.current?.()
  }
  return (
    <>
      <Unsent outbox={outbox} />
      <div className={styles['fields']}>
        {subjects.length > 1 && (
          <NativeSelect
            label={t('attachments.of')}
            data={subjects.map((each) => ({ value: keyOf(each), label: each.label }))}
            value={keyOf(subject)}
            onChange={(event) => setKey(event.currentTarget.value)}
          />
        )}
        <TextInput
          label={t('attachments.whatItShows')}
          description={t('attachments.whatItShowsHelp')}
          maxLength={200}
          value={caption}
          onChange={(event) => setCaption(event.currentTarget.value)}
        />
      </div>
      <div className={styles['buttons']}>
        <FileButton
          accept="image/*"
          capture="environment"
          resetRef={camera}
          onChange={(file) => void take(file === null ? [] : [file])}
        >
          {(props) => (
            <Button {...props} leftSection={<Camera size={18} aria-hidden />}>
              {t('attachments.takePhoto')}
            </Button>
          )}
        </FileButton>
        <FileButton accept="image/*" multiple resetRef={files} onChange={(chosen) => void take(chosen)}>
          {(props) => (
            <Button {...props} variant="default" leftSection={<Images size={18} aria-hidden />}>
              {t('attachments.choosePhotos')}
            </Button>
          )}
        </FileButton>
        <Button
          variant="default"
          leftSection={<NotebookPen size={18} aria-hidden />}
          onClick={() => {
            focus.hold()
            writing.open()
          }}
        >
          {t('attachments.addNote')}
        </Button>
      </div>
      {isWriting && (
        <AddNote
          repairOrderId={repairOrderId}
          subjects={subjects}
          first={subject}
          onClose={() => {
            writing.close()
            focus.giveBack()
          }}
        />
      )}
    </>
  )
}
