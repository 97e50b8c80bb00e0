"""Reading a workbook in a child process with limits."""
