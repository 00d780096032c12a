"""What is in the files beside the pages: feed, calendars, tables for reuse, pictures to share."""
