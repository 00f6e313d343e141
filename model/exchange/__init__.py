"""What goes out of the household and comes in again: tables, workbooks, weather, tasks."""
