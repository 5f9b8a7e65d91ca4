# headmark_embed(target NAMESPACE_FUNCTION file.csv ...): compiles the text files into `target`.
# For data/pipes.csv the function `std::string_view headmark::embedded::pipes_csv()` is made.
include_guard(GLOBAL)

if(CMAKE_SCRIPT_MODE_FILE)
    file(READ "${INPUT}" text)
    # A string literal may not be endless: cut it into pieces that the compiler joins again.
    string(LENGTH "${text}" length)
    set(pieces "")
    set(at 0)
    while(at LESS length)
        string(SUBSTRING "${text}" ${at} 8000 piece)
        string(APPEND pieces "R\"__hm(${piece})__hm\"\n")
        math(EXPR at "${at} + 8000")
    endwhile()
    file(WRITE "${OUTPUT}" "#include <string_view>\nnamespace headmark::embedded {\nstd::string_view ${NAME}();\nstd::string_view ${NAME}() {\n    static constexpr std::string_view text =\n${pieces};\n    return text;\n}\n}\n")
    return()
endif()

set(HEADMARK_EMBED_SCRIPT "${CMAKE_CURRENT_LIST_FILE}")

function(headmark_embed target)
    foreach(path IN LISTS ARGN)
        get_filename_component(absolute "${path}" ABSOLUTE)
        get_filename_component(file_name "${path}" NAME)
        string(REGEX REPLACE "[^A-Za-z0-9]" "_" name "${file_name}")
        set(generated "${CMAKE_CURRENT_BINARY_DIR}/embedded_${name}.cpp")
        add_custom_command(OUTPUT "${generated}"
            COMMAND ${CMAKE_COMMAND} -DINPUT=${absolute} -DOUTPUT=${generated} -DNAME=${name} -P "${HEADMARK_EMBED_SCRIPT}"
            DEPENDS "${absolute}" "${HEADMARK_EMBED_SCRIPT}" VERBATIM)
        target_sources(${target} PRIVATE "${generated}")
    endforeach()
endfunction()
