# Builds files into the program through the assembler's .incbin: no megabytes of generated C++.

macro(embed_begin)
  set(_embed_count 0)
  set(_embed_asm ".section .rodata\n")
  set(_embed_externs "")
  set(_embed_rows "")
  set(_embed_depends "")
  set(EMBEDDED_FILES "")  # "name=path"
endmacro()

macro(embed_file name path)
  if(NOT EXISTS ${path})
    message(FATAL_ERROR "${path} is missing: install fonts-lato, fonts-dejavu-core and icc-profiles-free")
  endif()
  set(_symbol rigdeed_resource_${_embed_count})
  string(APPEND _embed_asm ".global ${_symbol}\n.global ${_symbol}_end\n.balign 16\n${_symbol}:\n.incbin \"${path}\"\n${_symbol}_end:\n.byte 0\n")
  string(APPEND _embed_externs "extern const char ${_symbol}[];\nextern const char ${_symbol}_end[];\n")
  string(APPEND _embed_rows "        {\"${name}\", {${_symbol}, static_cast<std::size_t>(${_symbol}_end - ${_symbol})}},\n")
  list(APPEND _embed_depends ${path})
  list(APPEND EMBEDDED_FILES "${name}=${path}")
  math(EXPR _embed_count "${_embed_count} + 1")
endmacro()

macro(embed_end sources)
  string(APPEND _embed_asm ".section .note.GNU-stack,\"\",@progbits\n")
  file(CONFIGURE OUTPUT ${CMAKE_BINARY_DIR}/embedded.S CONTENT "${_embed_asm}" @ONLY)
  file(CONFIGURE OUTPUT ${CMAKE_BINARY_DIR}/embedded.cpp CONTENT
"#include <cstddef>
#include \"base/resources.hpp\"
extern \"C\" {
${_embed_externs}}
namespace rigdeed {
const std::vector<Resource>& resources() {
    static const std::vector<Resource> all{
${_embed_rows}    };
    return all;
}
}  // namespace rigdeed
" @ONLY)
  set_property(SOURCE ${CMAKE_BINARY_DIR}/embedded.S APPEND PROPERTY OBJECT_DEPENDS "${_embed_depends}")
  set(${sources} ${CMAKE_BINARY_DIR}/embedded.S ${CMAKE_BINARY_DIR}/embedded.cpp)
endmacro()
