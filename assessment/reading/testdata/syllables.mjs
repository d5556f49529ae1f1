// Counts the syllables of English words, one a line, by a library of its own.
import {readFileSync} from 'node:fs'
import {syllable} from 'syllable'

const words = readFileSync(0, 'utf8').split('\n')
process.stdout.write(words.map((word) => syllable(word)).join('\n'))
