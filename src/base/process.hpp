#pragma once

namespace rigdeed {

/// To be called once, before anything is opened. Afterwards a write beyond a limit or into a closed pipe is an error of
/// that call and not the end of the process, and no file is ever opened as descriptor 0, 1 or 2 because the caller had
/// closed it: what is printed must not end up in a report.
void settle_process();

}  // namespace rigdeed
