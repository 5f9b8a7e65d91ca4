# Shared by the whole project and by analysis/ when that is built alone.
include_guard(GLOBAL)

option(HEADMARK_WARNINGS_ARE_ERRORS "Refuse code that warns (on in CI and in tests/run.sh)" OFF)
set(HEADMARK_SANITIZE "" CACHE STRING "Sanitizers to build with: address,undefined or thread")

set(CMAKE_CXX_STANDARD 20)
set(CMAKE_CXX_STANDARD_REQUIRED ON)
set(CMAKE_CXX_EXTENSIONS OFF)
set(CMAKE_EXPORT_COMPILE_COMMANDS ON)

find_program(HEADMARK_CCACHE ccache)
if(HEADMARK_CCACHE AND NOT CMAKE_CXX_COMPILER_LAUNCHER)
    set(CMAKE_CXX_COMPILER_LAUNCHER "${HEADMARK_CCACHE}")
endif()

if(HEADMARK_SANITIZE)
    if(HEADMARK_SANITIZE MATCHES "thread" AND HEADMARK_SANITIZE MATCHES "address")
        message(FATAL_ERROR "HEADMARK_SANITIZE: the address and thread sanitizers cannot be combined; choose one.")
    endif()
    add_compile_options(-fsanitize=${HEADMARK_SANITIZE} -fno-sanitize-recover=all -fno-omit-frame-pointer)
    add_link_options(-fsanitize=${HEADMARK_SANITIZE})
endif()

# Strict warnings for our own targets only.
function(headmark_warnings target)
    target_compile_options(${target} PRIVATE -Wall -Wextra -Wpedantic -Wshadow -Wconversion)
    if(CMAKE_CXX_COMPILER_ID STREQUAL "GNU" AND CMAKE_CXX_COMPILER_VERSION VERSION_LESS 13)
        # GCC 12 sees overlaps in std::string's own operator+ (GCC bug 105651) and unset members in moved
        # std::variants where there are none.
        target_compile_options(${target} PRIVATE -Wno-restrict -Wno-maybe-uninitialized)
    endif()
    if(HEADMARK_WARNINGS_ARE_ERRORS)
        target_compile_options(${target} PRIVATE -Werror)
    endif()
endfunction()

# A static library of one folder: headmark_library(water SOURCES a.cpp LINKS headmark_units)
function(headmark_library name)
    cmake_parse_arguments(ARG "" "" "SOURCES;LINKS;PRIVATE_LINKS" ${ARGN})
    add_library(headmark_${name} STATIC ${ARG_SOURCES})
    target_include_directories(headmark_${name} PUBLIC "${HEADMARK_INCLUDE_ROOT}")
    target_link_libraries(headmark_${name} PUBLIC ${ARG_LINKS} PRIVATE ${ARG_PRIVATE_LINKS})
    headmark_warnings(headmark_${name})
endfunction()
