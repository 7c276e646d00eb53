import { FileInput } from '@mantine/core'
import { useState } from 'react'
import { scaledPhoto, type ScaledPhoto } from '../../../lib/scaled-photo.ts'
import { t } from '../../../lib/reader.ts'

export type Photo = ScaledPhoto

interface Props {
  readonly isRequired: boolean
  readonly photo: Photo | undefined
  readonly onChange: (photo: Photo | undefined) => void
}

/** A photo of the joint, scaled down here: what goes out is small and has no place and no device in it. */
export function PhotoField({ isRequired, photo, onChange }: Props) {
  const [fault, setFault] = useState<string>()
  const [file, setFile] = useState<File | null>(null)
  const take = async (chosen: File | null) => {
    setFile(chosen)
    setFault(undefined)
    onChange(undefined)
    if (chosen === null) return
    try {
      onChange(await scaledPhoto(chosen))
    } catch {
      setFault(t('job.thisIsNoPictureThatCanBeReadTakeA'))
    }
  }
  return (
    <>
      <FileInput
        label={t('job.photoOfTheJoint')}
        description={isRequired ? t('job.theClassOfTheJointAsksForIt') : t('job.whereItHelps')}
        placeholder={t('job.takeOrChooseAPhoto')}
        accept="image/jpeg,image/png"
        capture="environment"
        required={isRequired}
        clearable
        value={file}
        error={fault}
        onChange={(chosen) => void take(chosen)}
      />
      {photo !== undefined && (
        <img
          src={`data:${photo.mediaType};base64,${photo.base64}`}
          alt={t('job.theJointAsItWillBeKept')}
          style={{ maxWidth: '100%', maxHeight: 240, objectFit: 'contain' }}
        />
      )}
    </>
  )
}
