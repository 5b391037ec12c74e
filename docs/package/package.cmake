# The Debian package: `cmake --build BUILD --target package` writes BUILD/rigdeed_VERSION_ARCH.deb. All of it is made of
# what the program says of itself, the templates and docs/; with SOURCE_DATE_EPOCH two builds of one commit are the same
# bytes.
find_package(Python3 COMPONENTS Interpreter)
if(NOT Python3_FOUND)
  return()
endif()

set(PACKAGED ${CMAKE_BINARY_DIR}/packaged)
add_custom_command(
  OUTPUT ${PACKAGED}/done
  COMMAND ${CMAKE_COMMAND} -E env ${Python3_EXECUTABLE} ${CMAKE_SOURCE_DIR}/docs/package/prepare.py
          $<TARGET_FILE:rigdeed> ${CMAKE_SOURCE_DIR} ${PACKAGED} ${PROJECT_VERSION}
  DEPENDS rigdeed ${CMAKE_SOURCE_DIR}/docs/package/prepare.py ${CMAKE_SOURCE_DIR}/docs/package/make_manual.py
          ${CMAKE_SOURCE_DIR}/docs/package/lintian-overrides ${CMAKE_SOURCE_DIR}/docs/package/make_sbom.py ${CMAKE_SOURCE_DIR}/docs/package/copyright.in
          ${CMAKE_SOURCE_DIR}/docs/changes.md ${CMAKE_SOURCE_DIR}/templates/survey.xsd ${CMAKE_SOURCE_DIR}/templates/works.xsd
  COMMENT "manual pages, completions, check page and list of parts"
  VERBATIM)
add_custom_target(manuals ALL DEPENDS ${PACKAGED}/done)

set(DOCUMENTS share/doc/rigdeed)
install(DIRECTORY ${PACKAGED}/man/man1 ${PACKAGED}/man/man5 DESTINATION share/man)
install(FILES ${PACKAGED}/completions/rigdeed.bash DESTINATION share/bash-completion/completions RENAME rigdeed)
install(FILES ${PACKAGED}/completions/_rigdeed DESTINATION share/zsh/vendor-completions)
install(FILES ${PACKAGED}/completions/rigdeed.fish DESTINATION share/fish/vendor_completions.d)
install(FILES templates/survey.xsd templates/works.xsd templates/marks.xsd ${PACKAGED}/check.html
        docs/check.schema.json DESTINATION share/rigdeed)
install(FILES ${PACKAGED}/copyright ${PACKAGED}/changelog.gz ${PACKAGED}/rigdeed.spdx.json README.md docs/changes.md
        docs/trade.md docs/survey-file.md docs/report-contents.md docs/exit-codes.md docs/glossary.md docs/check-page.md
        docs/pairing.md docs/reliability.md docs/who-could-cheat.md docs/worked-example.md
        DESTINATION ${DOCUMENTS})
install(DIRECTORY fixtures/complete/ DESTINATION ${DOCUMENTS}/examples/sample)
install(FILES ${PACKAGED}/lintian-overrides DESTINATION share/lintian/overrides RENAME rigdeed)

set(CPACK_GENERATOR DEB)
set(CPACK_PACKAGE_NAME rigdeed)
set(CPACK_PACKAGE_VERSION ${PROJECT_VERSION})
set(CPACK_PACKAGE_CONTACT "rigdeed developers <rigdeed@localhost.localdomain>")
set(CPACK_PACKAGING_INSTALL_PREFIX /usr)
set(CPACK_STRIP_FILES ON)
set(CPACK_INSTALL_DEFAULT_DIRECTORY_PERMISSIONS OWNER_READ OWNER_WRITE OWNER_EXECUTE GROUP_READ GROUP_EXECUTE WORLD_READ
                                                WORLD_EXECUTE)
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PACKAGE_SHLIBDEPS ON)
set(CPACK_DEBIAN_PACKAGE_SECTION misc)
set(CPACK_DEBIAN_PACKAGE_PRIORITY optional)
set(CPACK_DEBIAN_PACKAGE_CONTROL_STRICT_PERMISSION ON)
set(CPACK_DEBIAN_PACKAGE_DESCRIPTION "sealed reports of a yacht's standing rigging
Takes the survey file and the photos of an inspection of a sailing yacht's
standing rigging, says what is missing, applies the trade's rules and does
its calculations, lays out a PDF report with photos, verdicts and works list,
and seals it, so that later edits show. Whoever holds a report can check it
with this program, with a page for any browser, or with other programs.

It is no substitute for a qualified rigger.")
include(CPack)
