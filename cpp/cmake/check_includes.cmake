# Run as a test: every #include of one module stays within its reach.
#   cmake -D CPP_DIR=cpp -D MODULE=catalog -D MAY_USE=catalog,physics,base -P check_includes.cmake

cmake_minimum_required(VERSION 3.22)
string(REPLACE "," ";" may_use "${MAY_USE}")
file(GLOB_RECURSE files
    "${CPP_DIR}/include/levelswap/${MODULE}/*.hpp"
    "${CPP_DIR}/src/${MODULE}/*.hpp" "${CPP_DIR}/src/${MODULE}/*.cpp")

# Third-party headers and the only module whose sources may name them.
set(home_of_yaml-cpp document)
set(home_of_boost graph)
set(home_of_pybind11 bindings)

set(faults "")
foreach(file IN LISTS files)
    file(STRINGS "${file}" lines REGEX "^[ \t]*#[ \t]*include")
    string(FIND "${file}" "${CPP_DIR}/include/" in_public)
    foreach(line IN LISTS lines)
        if(line MATCHES "[<\"]levelswap/([a-z_]+)/" AND NOT CMAKE_MATCH_1 IN_LIST may_use)
            string(APPEND faults "\n  ${file} includes ${CMAKE_MATCH_1}: ${line}")
        endif()
        if(line MATCHES "[<\"](yaml-cpp|boost|pybind11)/")
            set(package "${CMAKE_MATCH_1}")
            if(in_public EQUAL 0)
                string(APPEND faults "\n  ${file} shows ${package} in a public header: ${line}")
            elseif(NOT home_of_${package} STREQUAL MODULE)
                string(APPEND faults "\n  ${file} includes ${package}, which belongs to ${home_of_${package}}: ${line}")
            endif()
        endif()
    endforeach()
endforeach()
if(faults)
    message(FATAL_ERROR "module ${MODULE} may use ${MAY_USE}, but${faults}")
endif()
list(LENGTH files count)
message(STATUS "module ${MODULE}: ${count} files within reach")
