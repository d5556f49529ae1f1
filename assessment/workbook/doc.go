// Package workbook writes and reads spreadsheets as files (ISO/IEC 29500, XLSX). It is the
// one door to the library that does. It is pure: a book is bytes, and what it may unfold to
// has a limit.
package workbook
