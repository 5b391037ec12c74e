# Writes the source file that tells which build this is: its version, and one digest over all that can change a page.
# Included, it offers identify_build(); run as a script, it does the work, each time one of those files has changed.
#
# Left out is what only reads or carries finished pages: a change there must not keep a report of before from being
# compared.

set(NO_PAGE_DEPENDS_ON "^(command|verify|seal|reopen|marks|marking|checking|page|main\\.cpp)")

function(identify_build version source_folder sources others output)
  set(list "${CMAKE_BINARY_DIR}/build-files.txt")
  set(lines "")
  set(files "")
  foreach(source ${sources})
    file(RELATIVE_PATH name ${source_folder} ${source})
    if(NOT name MATCHES "${NO_PAGE_DEPENDS_ON}")
      string(APPEND lines "${name}=${source}\n")
      list(APPEND files ${source})
    endif()
  endforeach()
  foreach(other ${others})
    string(REGEX REPLACE "=.*" "" name "${other}")
    string(REGEX REPLACE "^[^=]*=" "" path "${other}")
    if(name MATCHES "^page/")
      continue()
    endif()
    string(APPEND lines "${name}=${path}\n")
    list(APPEND files ${path})
  endforeach()
  file(CONFIGURE OUTPUT ${list} CONTENT "${lines}" @ONLY)
  add_custom_command(
    OUTPUT ${output}
    COMMAND ${CMAKE_COMMAND} -DVERSION=${version} -DLIST=${list} -DOUTPUT=${output} -P ${CMAKE_CURRENT_FUNCTION_LIST_FILE}
    DEPENDS ${files} ${list} ${CMAKE_CURRENT_FUNCTION_LIST_FILE}
    VERBATIM)
endfunction()

if(CMAKE_SCRIPT_MODE_FILE)
  file(STRINGS ${LIST} lines)
  list(SORT lines)
  set(sums "")
  foreach(line ${lines})
    string(REGEX REPLACE "=.*" "" name "${line}")
    string(REGEX REPLACE "^[^=]*=" "" path "${line}")
    file(SHA256 ${path} sum)
    string(APPEND sums "${sum}  ${name}\n")
  endforeach()
  string(SHA256 digest "${sums}")
  file(WRITE ${OUTPUT}
"#include \"base/build.hpp\"

namespace rigdeed {

std::string_view version() { return \"${VERSION}\"; }
std::string_view build_digest() { return \"${digest}\"; }

}  // namespace rigdeed
")
endif()
