# Makes the man pages, by pandoc, from the texts beside this file and from what the program says of its own commands.
#
#   cmake -DPROGRAM= -DPANDOC= -DTEXTS= -DVERSION= -DINTO= -P make_man_pages.cmake
#
# INTO is emptied first: a command that was renamed leaves no page behind.
cmake_minimum_required(VERSION 3.25)

# What the program prints. With OPTIONAL an empty text where it does not know the command.
function(rakelight_says var)
  cmake_parse_arguments(ARG "OPTIONAL" "" "" ${ARGN})
  execute_process(COMMAND ${PROGRAM} ${ARG_UNPARSED_ARGUMENTS} OUTPUT_VARIABLE text ERROR_VARIABLE error RESULT_VARIABLE code)
  if(NOT code EQUAL 0)
    if(NOT ARG_OPTIONAL)
      message(FATAL_ERROR "rakelight ${ARG_UNPARSED_ARGUMENTS}: ${error}")
    endif()
    set(text "")
  endif()
  set(${var} "${text}" PARENT_SCOPE)
endfunction()

# A page of a section, gzipped without name and time, so that the same text gives the same bytes.
function(page name section text)
  string(TOUPPER "${name}" title)
  set(text "% ${title}(${section}) rakelight ${VERSION} | Rakelight\n\n${text}")
  set(folder ${INTO}/man${section})
  file(WRITE ${INTO}/${name}.md "${text}")
  file(MAKE_DIRECTORY ${folder})
  execute_process(COMMAND ${PANDOC} --standalone --from markdown-smart --to man --output ${folder}/${name}.${section} ${INTO}/${name}.md
                  COMMAND_ERROR_IS_FATAL ANY)
  execute_process(COMMAND gzip -9nf ${folder}/${name}.${section} COMMAND_ERROR_IS_FATAL ANY)
  file(REMOVE ${INTO}/${name}.md)
endfunction()

file(REMOVE_RECURSE ${INTO})
rakelight_says(names manual)
string(REGEX MATCHALL "[^\n]+" names "${names}")
set(see "")
foreach(name IN LISTS names)
  rakelight_says(text manual ${name})
  page(rakelight-${name} 1 "${text}")
  list(APPEND see "**rakelight\\-${name}**(1)")
endforeach()

rakelight_says(keys OPTIONAL keys --markdown)
if(keys)
  file(READ ${TEXTS}/rakelight-layout.5.md text)
  string(REPLACE "@KEYS@" "${keys}" text "${text}")
  page(rakelight-layout 5 "${text}")
  list(APPEND see "**rakelight\\-layout**(5)")
endif()

rakelight_says(tree manual rakelight)
file(READ ${TEXTS}/rakelight.1.md text)
list(JOIN see ", " see)
string(REPLACE "@TREE@" "${tree}" text "${text}")
string(REPLACE "@SEE@" "${see}" text "${text}")
page(rakelight 1 "${text}")
file(TOUCH ${INTO}/done)
