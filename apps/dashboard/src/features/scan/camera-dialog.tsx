import { Alert, Button, FileButton, Group, Modal, Stack, TextInput } from '@mantine/core'
import { ImageUp } from 'lucide-react'
import { useEffect, useEffectEvent, useRef, useState } from 'react'
import { draw, firstBarcode, pictureOf } from './decode.ts'
import styles from './scan.module.css'
import { t } from '../../lib/reader.ts'

interface Props {
  readonly onScan: (text: string) => void
  readonly onClose: () => void
}

const EVERY_MS = 250

/** Reads a barcode with the phone's camera; from a photo where the camera may not be used. */
export function CameraDialog({ onScan, onClose }: Props) {
  const video = useRef<HTMLVideoElement>(null)
  const [fault, setFault] = useState<string>()
  const [typed, setTyped] = useState('')
  const onText = useEffectEvent(onScan)
  useEffect(() => watchCamera(video, (text) => onText(text), setFault), [])

  const readPhoto = (file: File | null) => {
    if (file === null) return
    pictureOf(file)
      .then(firstBarcode)
      .then((text) => {
        if (text === undefined) setFault(t('features.noBarcodeFoundInThatPictureFillThe'))
        else onScan(text)
      })
      .catch(() => setFault(t('features.thatFileIsNoPictureThatThisBrowser')))
  }
  return (
    <Modal opened onClose={onClose} title={t('features.scanWithTheCamera')} size="lg">
      <Stack gap="md">
        {/* oxlint-disable-next-line jsx-a11y/media-has-caption -- a live picture, without sound */}
        <video
          ref={video}
          className={styles['video']}
          muted
          playsInline
          aria-label={t('features.whatTheCameraSees')}
        />
        {fault !== undefined && (
          <Alert color="yellow" title={t('features.notReadYet')}>
            {fault}
          </Alert>
        )}
        <FileButton accept="image/*" capture="environment" onChange={readPhoto}>
          {(props) => (
            <Button {...props} variant="default" leftSection={<ImageUp size={16} aria-hidden />}>
              {t('features.takeOrChooseAPhoto')}
            </Button>
          )}
        </FileButton>
        <form
          onSubmit={(event) => {
            event.preventDefault()
            if (typed.trim() !== '') onScan(typed.trim())
          }}
        >
          <Group align="flex-end" wrap="nowrap" gap="xs">
            <TextInput
              label={t('features.orTypeTheCode')}
              description={t('features.asItIsPrintedBelowTheBarsOrSquares')}
              style={{ flex: 1 }}
              autoCapitalize="characters"
              autoComplete="off"
              spellCheck={false}
              value={typed}
              onChange={(event) => setTyped(event.currentTarget.value)}
            />
            <Button type="submit" disabled={typed.trim() === ''}>
              {t('features.useIt')}
            </Button>
          </Group>
        </form>
      </Stack>
    </Modal>
  )
}

/** Looks at the camera's picture a few times a second. @returns what ends it and switches the camera off. */
function watchCamera(
  video: { readonly current: HTMLVideoElement | null },
  onText: (text: string) => void,
  onFault: (sentence: string) => void,
): () => void {
  let stream: MediaStream | undefined
  let timer: ReturnType<typeof setTimeout> | undefined
  let isOver = false
  const look = async () => {
    const shown = video.current
    if (isOver || shown === null) return
    if (shown.videoWidth > 0) {
      const text = await firstBarcode(draw(shown, shown.videoWidth, shown.videoHeight))
      if (isOver) return
      if (text !== undefined) {
        navigator.vibrate?.(60)
        onText(text)
        return
      }
    }
    timer = setTimeout(() => void start(look), EVERY_MS)
  }
  const start = (step: () => Promise<void>) =>
    step().catch(() => onFault(t('features.theCamerasPictureCannotBeReadHere')))
  void start(async () => {
    // Browsers give the camera to secure addresses only.
    const devices = navigator.mediaDevices as MediaDevices | undefined
    if (devices === undefined) {
      onFault(t('features.theLivePictureNeedsAnHttpsAddress'))
      return
    }
    stream = await devices.getUserMedia({ video: { facingMode: 'environment', width: { ideal: 1280 } } })
    if (isOver || video.current === null) {
      end(stream)
      return
    }
    video.current.srcObject = stream
    await video.current.play()
    await look()
  })
  return () => {
    isOver = true
    clearTimeout(timer)
    end(stream)
  }
}

function end(stream: MediaStream | undefined): void {
  for (const track of stream?.getTracks() ?? []) track.stop()
}
