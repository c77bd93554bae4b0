package cli

import (
	"syscall"
	"unsafe"
)

// clicked says whether the program was started by a double click: its window holds no other program, as that of a shell would.
func clicked() bool {
	var ids [2]uint32
	n, _, _ := syscall.NewLazyDLL("kernel32.dll").NewProc("GetConsoleProcessList").Call(uintptr(unsafe.Pointer(&ids[0])), uintptr(len(ids)))
	return n == 1
}
