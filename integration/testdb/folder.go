package testdb

import (
	"bufio"
	"flag"
	"fmt"
	"os"
	"strings"
	"syscall"
)

const (
	memory     = "/dev/shm"                // where Linux keeps files in memory alone
	tmpfs      = 0x01021994                // the kernel's number of that kind of file system (linux/magic.h)
	memoryRoom = 6 * int64(1024*1024*1024) // what the clusters of two packages at once need, with room to spare
)

// folder is where the test cluster's own folder is made: in memory where there is room, since each test's database is
// a thousand small files, made and removed again, which costs a file system on a disk ten times as long; "" else,
// which is the place for temporary files. What is measured is measured on a disk, where a database of an agency lies.
func folder() string {
	if measuring() || !inMemory(memory) || roomIn(memory) < memoryRoom || memoryLeft() < memoryRoom {
		return ""
	}
	return memory
}

func measuring() bool {
	bench := flag.Lookup("test.bench")
	return bench != nil && bench.Value.String() != ""
}

func inMemory(dir string) bool {
	var fs syscall.Statfs_t
	return syscall.Statfs(dir, &fs) == nil && int64(fs.Type) == tmpfs
}

// roomIn is in bytes; 0 where it cannot be told.
func roomIn(dir string) int64 {
	var fs syscall.Statfs_t
	if syscall.Statfs(dir, &fs) != nil {
		return 0
	}
	return int64(fs.Bavail) * int64(fs.Bsize)
}

// memoryLeft is in bytes, as the kernel estimates it; 0 where it cannot be told.
func memoryLeft() int64 {
	file, err := os.Open("/proc/meminfo")
	if err != nil {
		return 0
	}
	defer file.Close()
	for lines := bufio.NewScanner(file); lines.Scan(); {
		rest, found := strings.CutPrefix(lines.Text(), "MemAvailable:")
		if !found {
			continue
		}
		var kilobytes int64
		if _, err := fmt.Sscanf(rest, "%d kB", &kilobytes); err != nil {
			return 0
		}
		return kilobytes * 1024
	}
	return 0
}
